import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import * as models from '../../src/models/index.ts';

it('runs the example of docs/engine.md', () => {
  const page = readFileSync(new URL('../../docs/engine.md', import.meta.url), 'utf8');
  const code = /```js\n([\s\S]+?)```/.exec(page)?.[1] ?? '';
  const names = /import \{ (.+) \} from 'leatherbook\/models';/.exec(code)?.[1] ?? '';
  expect(names.split(', ').length).toBeGreaterThan(1);
  const printed: unknown[][] = [];
  const body = code.replace(/^import .+$/m, `const { ${names} } = models;`);
  new Function('models', 'console', body)(models, { log: (...values: unknown[]) => printed.push(values) });
  const [[edf], [chances]] = printed as [[number], [Float64Array]];
  expect(edf).toBeGreaterThan(4);
  expect(edf).toBeLessThan(77);
  expect(chances[0]).toBeGreaterThan(chances[1]);
  expect(chances[1]).toBeGreaterThan(chances[2]);
});
