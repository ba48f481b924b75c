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

/** The drawing as a document of its own: styles written into it, the page's ground behind it. */
function standAlone(svg: SVGSVGElement): { readonly text: string; readonly width: number; readonly height: number } {
  const { width, height } = svg.getBoundingClientRect();
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const originals = [svg, ...svg.querySelectorAll<SVGElement>('*')];
  const copies = [copy, ...copy.querySelectorAll<SVGElement>('*')];
  originals.forEach((original, at) => {
    const style = getComputedStyle(original);
    const target = copies[at]!;
    for (const property of CARRIED) target.setAttribute(property, style.getPropertyValue(property));
    target.removeAttribute('class');
  });
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('width', String(width));
  copy.setAttribute('height', String(height));
  const ground = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  const box = svg.viewBox.baseVal;
  for (const [name, value] of Object.entries({
    x: box.x,
    y: box.y,
    width: box.width || width,
    height: box.height || height,
  }))
    ground.setAttribute(name, String(value));
  ground.setAttribute('fill', getComputedStyle(document.body).backgroundColor);
  copy.prepend(ground);
  return { text: new XMLSerializer().serializeToString(copy), width, height };
}

export function saveAsSvg(svg: SVGSVGElement, name: string): void {
  saveFile(`${name}.svg`, new Blob([standAlone(svg).text], { type: 'image/svg+xml' }));
}

/** Draws at twice the size on the screen, so that it is sharp on paper. */
export async function saveAsPng(svg: SVGSVGElement, name: string): Promise<void> {
  const { text, width, height } = standAlone(svg);
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
