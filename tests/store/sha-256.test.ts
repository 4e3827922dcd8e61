import { describe, expect, test } from 'vitest';
import { hexOf, nextSeal, sha256 } from '../../src/store/sha-256.ts';

const hashOf = async (text: string): Promise<string> => hexOf(await sha256(new TextEncoder().encode(text)));

describe('SHA-256', () => {
  // The example messages of one and of two blocks that NIST publishes with FIPS 180-4 (SHA-256, examples with intermediate values).
  test('of the one-block message is the published one', async () => {
    expect(await hashOf('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  test('of the two-block message is the published one', async () => {
    expect(await hashOf('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    );
  });
});

test('a seal depends on every piece and on their order', async () => {
  const start = await sha256(new Uint8Array());
  const seal = async (...pieces: number[]): Promise<string> => {
    let current = start;
    for (const piece of pieces) current = await nextSeal(current, Uint8Array.of(piece));
    return hexOf(current);
  };
  const seals = [await seal(1, 2), await seal(2, 1), await seal(1), await seal(1, 2, 2), await seal(1, 3)];
  expect(new Set(seals).size).toBe(5);
  expect(await seal(1, 2)).toBe(seals[0]);
});
