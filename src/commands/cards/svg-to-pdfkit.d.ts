declare module 'svg-to-pdfkit' {
  interface DrawOptions {
    readonly width: number;
    readonly height: number;
    /** Name of the registered font for a text. */
    readonly fontCallback: () => string;
  }
  /** Draws an SVG with its top left corner at (x, y), points. */
  function drawSvg(document: PDFKit.PDFDocument, svg: string, x: number, y: number, options: DrawOptions): void;
  export = drawSvg;
}
