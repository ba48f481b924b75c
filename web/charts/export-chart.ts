import { saveFile } from './save-file.ts';

/** What a drawing takes from the page's styles; a file has to carry it itself. */
const CARRIED = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-opacity',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'vector-effect',
  'font-family',
  'font-size',
  'font-weight',
  'text-anchor',
  'dominant-baseline',
  'opacity',
  'paint-order',
] as const;

const PNG_SCALE = 2;
const SVG = 'http://www.w3.org/2000/svg';

/** A drawing as a document of its own, and its size in pixels. */
export interface Picture {
  readonly text: string;
  readonly width: number;
  readonly height: number;
}

export function svgElement<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string | number>>,
): SVGElementTagNameMap[Name] {
  const element = document.createElementNS(SVG, name);
  for (const [attribute, value] of Object.entries(attributes)) element.setAttribute(attribute, String(value));
  return element;
}

/** A copy of a drawing with the page's styles written into it. */
export function styledCopy(svg: SVGSVGElement): SVGSVGElement {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const originals = [svg, ...svg.querySelectorAll<SVGElement>('*')];
  const copies = [copy, ...copy.querySelectorAll<SVGElement>('*')];
  originals.forEach((original, at) => {
    const style = getComputedStyle(original);
    const target = copies[at]!;
    for (const property of CARRIED) target.setAttribute(property, style.getPropertyValue(property));
    target.removeAttribute('class');
  });
  return copy;
}

/** A drawing on the page's ground. */
export function pictureOf(svg: SVGSVGElement): Picture {
  const { width, height } = svg.getBoundingClientRect();
  return standAlone(styledCopy(svg), width, height);
}

/** Makes `svg`, which carries its styles, a document. */
export function standAlone(svg: SVGSVGElement, width: number, height: number): Picture {
  svg.setAttribute('xmlns', SVG);
  svg.setAttribute('width', String(width));
  svg.setAttribute('height', String(height));
  const box = svg.viewBox.baseVal;
  const fill = getComputedStyle(document.body).backgroundColor;
  svg.prepend(
    svgElement('rect', { x: box.x, y: box.y, width: box.width || width, height: box.height || height, fill }),
  );
  return { text: new XMLSerializer().serializeToString(svg), width, height };
}

export function saveAsSvg({ text }: Picture, name: string): void {
  saveFile(`${name}.svg`, new Blob([text], { type: 'image/svg+xml' }));
}

/** Draws at twice the size on the screen, so that it is sharp on paper. */
export async function saveAsPng({ text, width, height }: Picture, name: string): Promise<void> {
  const image = new Image();
  const address = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }));
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * PNG_SCALE);
    canvas.height = Math.round(height * PNG_SCALE);
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    if (blob !== null) saveFile(`${name}.png`, blob);
  } finally {
    URL.revokeObjectURL(address);
  }
}
