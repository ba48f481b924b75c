import { expect, test } from 'vitest';
import { lockFaults } from '../../scripts/lock-check.ts';

const lock = (packages: object) => JSON.stringify({ lockfileVersion: 3, packages: { '': {}, ...packages } });

test('a package with a checksum and no address passes', () => {
  expect(lockFaults(lock({ 'node_modules/a': { version: '1.0.0', integrity: 'sha512-x' } }))).toEqual([]);
});

test('an address, a missing checksum and an empty list fail', () => {
  expect(
    lockFaults(
      lock({ 'node_modules/a': { integrity: 'sha512-x', resolved: 'https://x/a.tgz' }, 'node_modules/b': {} }),
    ),
  ).toEqual(['node_modules/a: holds an address ("resolved")', 'node_modules/b: has no checksum ("integrity")']);
  expect(lockFaults(lock({}))).toHaveLength(1);
});
