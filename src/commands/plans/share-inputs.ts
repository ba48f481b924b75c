import type { PlanInputs } from '../plan-inputs.ts';

type Numbers = Float64Array | Int32Array | Uint8Array;

/** The same inputs with their columns in memory that threads share, so that each thread does not hold a copy. */
export function shareInputs(inputs: PlanInputs): PlanInputs {
  const table = Object.fromEntries(
    Object.entries(inputs.table).map(([name, values]) => [name, ArrayBuffer.isView(values) ? share(values) : values]),
  );
  return { ...inputs, table: table as unknown as PlanInputs['table'] };
}

function share<T extends ArrayBufferView>(values: T): T {
  const numbers = values as unknown as Numbers;
  const shared = new SharedArrayBuffer(numbers.byteLength);
  const twin = new (numbers.constructor as new (buffer: SharedArrayBuffer) => Numbers)(shared);
  twin.set(numbers);
  return twin as unknown as T;
}
