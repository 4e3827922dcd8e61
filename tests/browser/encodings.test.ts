import { expect, test } from 'vitest';
import { FileDecoder } from '../../src/intake/text-decoder.ts';
import { bytesOfSample, ENCODING_SAMPLES } from '../intake/encoding-samples.ts';

test.each(ENCODING_SAMPLES)('the browser spells $text out of $encoding, byte by byte', (sample) => {
  const decoder = new FileDecoder(sample.encoding);
  const pieces = Array.from(bytesOfSample(sample), (byte) => decoder.decode(Uint8Array.of(byte)));
  expect(pieces.join('') + decoder.end()).toBe(sample.text);
});
