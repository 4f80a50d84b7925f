// A ZIP archive (PKWARE APPNOTE 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16) of files as they are: pictures are small already.

const TABLE = Array.from({ length: 256 }, (_, n) => {
  for (let bit = 0; bit < 8; bit += 1) n = n & 1 ? 0xedb88320 ^ (n >>> 1) : n >>> 1;
  return n >>> 0;
});
const UTF8 = 0x0800, VERSION = 20;

/** CRC-32 of bytes (ISO 3309, as ZIP has it). */
const checksum = (bytes) => (bytes.reduce((sum, byte) => TABLE[(sum ^ byte) & 0xff] ^ (sum >>> 8), 0xffffffff) ^ 0xffffffff) >>> 0;

/** Numbers as little-endian bytes: pairs of a number and how many bytes it takes. */
const packed = (...fields) => fields.flatMap(([value, size]) => Array.from({ length: size }, (_, n) => Math.floor(value / 2 ** (8 * n)) & 0xff));

/** Date and time of MS-DOS, to two seconds; ZIP knows no year before 1980. */
const moment = ([year, month, day, hour, minute, second]) => [[(hour << 11) | (minute << 5) | (second >> 1), 2], [((Math.max(year, 1980) - 1980) << 9) | (month << 5) | day, 2]];

/** The archive as pieces of bytes, in order; `files` are pairs of a name and bytes, `at` is [year, month, day, hour, minute, second]. */
export function archive(files, at) {
  const pieces = [], directory = [];
  let place = 0;
  for (const [name, bytes] of files) {
    const called = new TextEncoder().encode(name);
    const told = [[VERSION, 2], [UTF8, 2], [0, 2], ...moment(at), [checksum(bytes), 4], [bytes.length, 4], [bytes.length, 4], [called.length, 2], [0, 2]];
    pieces.push(Uint8Array.from([...packed([0x04034b50, 4], ...told), ...called]), bytes);
    directory.push(Uint8Array.from([...packed([0x02014b50, 4], [VERSION, 2], ...told, [0, 2], [0, 2], [0, 2], [0, 4], [place, 4]), ...called]));
    place += 30 + called.length + bytes.length;
  }
  const long = directory.reduce((sum, one) => sum + one.length, 0);
  const end = packed([0x06054b50, 4], [0, 2], [0, 2], [files.length, 2], [files.length, 2], [long, 4], [place, 4], [0, 2]);
  return [...pieces, ...directory, Uint8Array.from(end)];
}
