import { describe, expect, test } from 'vitest';
import { crc32, crc32OfNumbers } from '../../src/store/crc-32.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('CRC-32', () => {
  // The check value of the algorithm of RFC 1952, section 8: the sum of the nine digits is cbf43926.
  test('gives the published check value', () => {
    expect(crc32(bytesOf('123456789')).toString(16)).toBe('cbf43926');
  });

  test('of nothing is zero', () => {
    expect(crc32(new Uint8Array())).toBe(0);
  });

  test('goes on from an earlier sum', () => {
    expect(crc32(bytesOf('6789'), crc32(bytesOf('12345')))).toBe(crc32(bytesOf('123456789')));
  });

  test('of numbers is that of their bytes, lowest first', () => {
    expect(crc32OfNumbers([0x04030201, 0xffffffff])).toBe(crc32(Uint8Array.of(1, 2, 3, 4, 255, 255, 255, 255)));
  });
});
