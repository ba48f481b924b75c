import { compileDesign } from './design.ts';
import type { FittedModel } from './fitted-model.ts';
import { fromModelFile, type ModelFile, toModelFile } from './model-file.ts';

/**
 * A model as bytes: the JSON of toModelFile without its coefficients, then the coefficients and the covariance as
 * little-endian doubles. Everything starts at a multiple of eight bytes:
 * "LBMODEL" and a version byte; length of the JSON (uint32) and four zero bytes; the JSON in UTF-8, padded with spaces; the
 * coefficients; the lower triangle of the covariance row by row (absent when the model has none).
 */
const MAGIC = 'LBMODEL';
const VERSION = 1;
const HEAD = 16;

export function toModelBytes(model: FittedModel): Uint8Array {
  const json = new TextEncoder().encode(JSON.stringify({ ...toModelFile(model), coefficients: [] }));
  const textLength = Math.ceil(json.length / 8) * 8;
  const numbers = [model.coefficients];
  if (model.covariance !== null) numbers.push(packTriangle(model.covariance, model.design.width));
  const count = numbers.reduce((sum, array) => sum + array.length, 0);
  const bytes = new Uint8Array(HEAD + textLength + 8 * count).fill(0x20, HEAD, HEAD + textLength);
  const view = new DataView(bytes.buffer);
  for (let k = 0; k < MAGIC.length; k += 1) bytes[k] = MAGIC.charCodeAt(k);
  bytes[MAGIC.length] = VERSION;
  view.setUint32(8, textLength, true);
  bytes.set(json, HEAD);
  let at = HEAD + textLength;
  for (const array of numbers)
    for (const value of array) {
      view.setFloat64(at, value, true);
      at += 8;
    }
  return bytes;
}

/** Throws RangeError for bytes that are not a model of this version, are cut short, or fail the checks of fromModelFile. */
export function fromModelBytes(bytes: Uint8Array): FittedModel {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const magic = String.fromCharCode(...bytes.subarray(0, MAGIC.length));
  if (bytes.length < HEAD || magic !== MAGIC) throw new RangeError('these bytes are not a model');
  if (bytes[MAGIC.length] !== VERSION)
    throw new RangeError(`model bytes version ${VERSION} expected, received ${bytes[MAGIC.length]}`);
  const textLength = view.getUint32(8, true);
  const from = HEAD + textLength;
  if (from > bytes.length || (bytes.length - from) % 8 !== 0)
    throw new RangeError('the bytes of a model are cut short');
  const file = JSON.parse(new TextDecoder().decode(bytes.subarray(HEAD, from))) as ModelFile;
  const numbers = new Float64Array((bytes.length - from) / 8);
  for (let k = 0; k < numbers.length; k += 1) numbers[k] = view.getFloat64(from + 8 * k, true);
  const { width } = compileDesign(file.spec);
  const triangle = numbers.subarray(width);
  if (triangle.length !== 0 && triangle.length !== (width * (width + 1)) / 2)
    throw new RangeError(`the bytes of model ${file.spec.name} are cut short`);
  const model = fromModelFile({ ...file, coefficients: Array.from(numbers.subarray(0, width)) });
  return { ...model, covariance: triangle.length === 0 ? null : expandTriangle(triangle, width) };
}

function packTriangle(matrix: Float64Array, n: number): Float64Array {
  const triangle = new Float64Array((n * (n + 1)) / 2);
  let at = 0;
  for (let i = 0; i < n; i += 1) for (let j = 0; j <= i; j += 1) triangle[at++] = matrix[i * n + j];
  return triangle;
}

function expandTriangle(triangle: Float64Array, n: number): Float64Array {
  const matrix = new Float64Array(n * n);
  let at = 0;
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      matrix[i * n + j] = triangle[at];
      matrix[j * n + i] = triangle[at++];
    }
  }
  return matrix;
}
