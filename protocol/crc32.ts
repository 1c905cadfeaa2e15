/**
 * Host only (the board has a native one). CRC-32/ISO-HDLC, as named in the RevEng catalogue of CRC algorithms:
 * polynomial 0x04C11DB7 reflected, start and final inversion all ones, check value CBF43926.
 */

const REFLECTED_POLYNOMIAL = 0xedb88320;

function createTable(): Int32Array {
  const table = new Int32Array(256);
  for (let byte = 0; byte < 256; byte++) {
    let crc = byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ REFLECTED_POLYNOMIAL : crc >>> 1;
    table[byte] = crc;
  }
  return table;
}

const TABLE = createTable();

/** CRC of `length` bytes from `offset` on; unsigned 32-bit. The range must lie inside the array. */
export function crc32Of(bytes: Uint8Array, offset: number, length: number): number {
  const end = offset + length;
  let crc = -1;
  for (let i = offset; i < end; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]) & 255];
  return ~crc >>> 0;
}

/** CRC of the whole array; unsigned 32-bit. Stands in for the board's native function. */
export function crc32(bytes: Uint8Array): number {
  return crc32Of(bytes, 0, bytes.length);
}
