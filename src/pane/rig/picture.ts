import { PAPER } from './colours.ts';

/** Pixels of a PNG a pixel of the drawing: sharp in print. */
const SHARPNESS = 3;

/** The drawing as a file of its own, in the colours of paper: well-formed XML that needs no style sheet. */
export function svgText(drawing: SVGSVGElement): string {
  const text = new XMLSerializer().serializeToString(drawing);
  return text
    .replace(/var\((--[\w-]+)\)/g, (whole, name: string) => PAPER[name] ?? whole)
    .replace(/ class="[^"]*"/g, '');
}

/** The drawing as pixels. */
export async function pngOf(drawing: SVGSVGElement): Promise<Blob> {
  const { width, height } = drawing.viewBox.baseVal;
  const picture = new Image();
  // As data: a page's content policy may forbid blobs.
  picture.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svgText(drawing))}`;
  await picture.decode();
  const canvas = document.createElement('canvas');
  canvas.width = width * SHARPNESS;
  canvas.height = height * SHARPNESS;
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob === null ? reject(new Error('the picture could not be made')) : resolve(blob)));
  });
}

/** Hands a file to the browser to keep. */
export function keepFile(blob: Blob, name: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has begun by then; the bytes need not stay in memory.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A name that every file system takes. */
export function fileName(rig: string, ending: string): string {
  const plain = rig
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  return `rig-${plain || 'drawing'}.${ending}`;
}
