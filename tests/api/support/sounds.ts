/** Recordings made for tests: a tone or silence in each container, with tags that must not be seen again. */

export const SECRET = 'InventedNameInATag';

const ascii = (text: string): Buffer => Buffer.from(text, 'latin1');
const u32 = (value: number): Buffer => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value);
  return bytes;
};
const be32 = (value: number): Buffer => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
};

function riff(type: string, data: Buffer): Buffer {
  return Buffer.concat([ascii(type), u32(data.length), data, Buffer.alloc(data.length % 2)]);
}

/** One second of 8 kHz, 16 bit, mono; the tag has an odd number of bytes. */
export function wav(seconds = 1): Buffer {
  const format = Buffer.alloc(16);
  format.writeUInt16LE(1, 0);
  format.writeUInt16LE(1, 2);
  format.writeUInt32LE(8_000, 4);
  format.writeUInt32LE(16_000, 8);
  format.writeUInt16LE(2, 12);
  format.writeUInt16LE(16, 14);
  const sound = Buffer.alloc(16_000 * seconds);
  for (let sample = 0; sample < sound.length / 2; sample += 1) sound.writeInt16LE(Math.round(8_000 * Math.sin(sample / 4)), sample * 2);
  const body = Buffer.concat([ascii('WAVE'), riff('fmt ', format), riff('LIST', ascii(`INFOIART${SECRET}`.padEnd(31, '.'))), riff('data', sound)]);
  return Buffer.concat([ascii('RIFF'), u32(body.length), body]);
}

/** Frames of MPEG 1 layer III, 128 kbit/s, 44.1 kHz, between an ID3v2 and an ID3v1 tag. */
export function mp3(frames = 40): Buffer {
  const frame = Buffer.alloc(417);
  frame.set([0xff, 0xfb, 0x90, 0xc0]);
  const text = ascii(`TPE1${SECRET}`);
  const id3 = Buffer.concat([ascii('ID3'), Buffer.from([4, 0, 0, 0, 0, 0, text.length]), text]);
  return Buffer.concat([id3, ...Array.from({ length: frames }, () => frame), ascii('TAG'), ascii(SECRET.padEnd(125, '\0'))]);
}

const box = (type: string, ...bodies: Buffer[]): Buffer => {
  const body = Buffer.concat(bodies);
  return Buffer.concat([be32(body.length + 8), ascii(type), body]);
};

/** M4A with one track of the kind given; the place in `udta` is one that phones write. */
export function m4a(handler = 'soun'): Buffer {
  const movieHead = Buffer.alloc(100);
  movieHead.writeUInt32BE(1_000, 12);
  movieHead.writeUInt32BE(2_500, 16);
  const track = box('trak', box('mdia', box('hdlr', Buffer.concat([Buffer.alloc(8), ascii(handler), Buffer.alloc(12), ascii(`${SECRET}\0`)])), box('minf', box('stbl'))));
  return Buffer.concat([box('ftyp', ascii('M4A '), Buffer.alloc(4), ascii('M4A mp42')), box('moov', box('mvhd', movieHead), track, box('udta', box('\xa9xyz', ascii(`+51.5000-000.1167/${SECRET}`)))), box('mdat', Buffer.alloc(500, 7))]);
}

/** Ogg pages with their check values, as RFC 3533 says; written apart from the code under test. */
function page(kind: number, sequence: number, granule: bigint, packets: Buffer[]): Buffer {
  const lacing = packets.flatMap((packet) => [...Array.from({ length: Math.floor(packet.length / 255) }, () => 255), packet.length % 255]);
  const head = Buffer.alloc(27);
  head.write('OggS', 'latin1');
  head[5] = kind;
  head.writeBigInt64LE(granule, 6);
  head.writeUInt32LE(77, 14);
  head.writeUInt32LE(sequence, 18);
  head[26] = lacing.length;
  const whole = Buffer.concat([head, Buffer.from(lacing), ...packets]);
  whole.writeUInt32LE(oggCrc(whole), 22);
  return whole;
}

export function oggCrc(bytes: Buffer): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte << 24;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 0x80000000 ? (crc << 1) ^ 0x04c11db7 : crc << 1;
  }
  return crc >>> 0;
}

export function opus(commentBytes = 40): Buffer {
  const comment = ascii(`ARTIST=${SECRET}`.padEnd(commentBytes, '.'));
  const head = Buffer.concat([ascii('OpusHead'), Buffer.from([1, 1, 0, 0]), u32(48_000), Buffer.from([0, 0, 0])]);
  const tags = Buffer.concat([ascii('OpusTags'), u32(5), ascii('maker'), u32(1), u32(comment.length), comment]);
  return Buffer.concat([page(2, 0, 0n, [head]), page(0, 1, 0n, [tags]), page(4, 2, 96_000n, [Buffer.alloc(80, 3), Buffer.alloc(90, 5)])]);
}

const element = (id: string, body: Buffer): Buffer => {
  const size = Buffer.alloc(4);
  size.writeUInt32BE(body.length);
  size[0] = (size[0] ?? 0) | 0x10;
  return Buffer.concat([Buffer.from(id, 'hex'), size, body]);
};

/** WebM as a browser records it: segment and cluster of unknown length. */
export function webm(trackType = 2): Buffer {
  const open = (id: string) => Buffer.from(`${id}01ffffffffffffff`, 'hex');
  return Buffer.concat([
    element('1a45dfa3', element('4282', ascii('webm'))), open('18538067'),
    element('1549a966', Buffer.concat([element('2ad7b1', Buffer.from([0x0f, 0x42, 0x40])), element('4d80', ascii(SECRET)), element('5741', ascii('maker'))])),
    element('1654ae6b', element('ae', Buffer.concat([element('d7', Buffer.from([1])), element('83', Buffer.from([trackType])), element('536e', ascii(SECRET))]))),
    open('1f43b675'), element('e7', Buffer.from([0])), element('a3', Buffer.concat([Buffer.from([0x81, 0, 0, 0x80]), Buffer.alloc(60, 9)])),
    element('1254c367', element('7373', ascii(SECRET.repeat(20)))),
  ]);
}
