/** The remainders of the 256 bytes by the polynomial of ISO 3309, bits reversed. */
const remainders = Int32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit++)
    remainder = (remainder & 1) === 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1;
  return remainder;
});

/**
 * The check sum of ZIP archives (CRC-32 of ISO 3309); `before`: that of the bytes that came before these. Node has its own
 * only from 20.15 on.
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  let sum = ~before;
  for (let i = 0; i < bytes.length; i++) {
    sum = (remainders[(sum ^ (bytes[i] as number)) & 0xff] as number) ^ (sum >>> 8);
  }
  return ~sum >>> 0;
}
