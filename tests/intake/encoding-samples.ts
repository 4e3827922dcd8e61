import type { Encoding } from '../../src/domain/file-plan.ts';

/** A word in one encoding. */
export interface EncodingSample {
  readonly encoding: Encoding;
  /** Its bytes in hexadecimal, by the code chart that the encoding's own publication prints. */
  readonly bytes: string;
  readonly text: string;
}

/**
 * A word each, chosen so that an encoding's nearest relative would spell it otherwise.
 * Sources of the charts: ISO/IEC 8859 parts 2, 5, 7 and 15; RFC 1489 (KOI8-R); the WHATWG Encoding Standard's indexes for Windows, DOS and Mac
 * code pages; JIS X 0208 for Shift JIS and EUC-JP; GB 18030 with its four-byte range; Big5; KS X 1001 for EUC-KR.
 */
export const ENCODING_SAMPLES: readonly EncodingSample[] = [
  { encoding: 'windows-1252', bytes: '80 b5 46', text: '€µF' },
  { encoding: 'iso-8859-15', bytes: 'a4 b5 a6', text: '€µŠ' },
  { encoding: 'macintosh', bytes: '53 70 61 6e 6e 9f 67 b5 bd', text: 'SpannügµΩ' },
  { encoding: 'windows-1250', bytes: '9a ed f8 6b 61 b5', text: 'šířkaµ' },
  { encoding: 'iso-8859-2', bytes: 'b9 ed f8 6b 61', text: 'šířka' },
  { encoding: 'windows-1257', bytes: 'e1 74 61 6d 70 61 b5', text: 'įtampaµ' },
  { encoding: 'windows-1251', bytes: 'e2 ee eb fc f2 b5', text: 'вольтµ' },
  { encoding: 'iso-8859-5', bytes: 'd2 de db ec e2', text: 'вольт' },
  { encoding: 'koi8-r', bytes: 'd7 cf cc d8 d4', text: 'вольт' },
  { encoding: 'ibm866', bytes: 'a2 ae ab ec e2', text: 'вольт' },
  { encoding: 'windows-1253', bytes: 'a2 ed f9 b5 d9', text: 'ΆνωµΩ' },
  { encoding: 'iso-8859-7', bytes: 'b6 ed f9 d9', text: 'ΆνωΩ' },
  { encoding: 'windows-1254', bytes: 'fd fe fd 6b b5', text: 'ışıkµ' },
  { encoding: 'windows-1255', bytes: 'f9 ec b5', text: 'שלµ' },
  { encoding: 'windows-1256', bytes: 'dd e6 e1 ca b5', text: 'فولتµ' },
  { encoding: 'gb18030', bytes: 'b5 e7 d1 b9 a6 b8 81 30 85 38', text: '电压Ωµ' },
  { encoding: 'big5', bytes: 'b9 71 c0 a3', text: '電壓' },
  { encoding: 'shift_jis', bytes: '93 64 88 b3 83 65 83 58 83 67 83 b6', text: '電圧テストΩ' },
  { encoding: 'euc-jp', bytes: 'c5 c5 b0 b5 a6 b8', text: '電圧Ω' },
  { encoding: 'euc-kr', bytes: 'c0 fc be d0', text: '전압' },
];

/** The bytes of a sample. */
export function bytesOfSample({ bytes }: EncodingSample): Uint8Array {
  return Uint8Array.from(bytes.split(' '), (byte) => Number.parseInt(byte, 16));
}
