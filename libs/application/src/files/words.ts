/** Why a file was refused and what was taken out of one, as codes; the sentences for people stand in `file-words.ts`. */

export const REFUSALS = [
  'length-differs', 'checksum-differs', 'empty', 'kind-differs', 'not-on-the-list', 'svg', 'gif', 'tiff', 'pdf', 'heic', 'document', 'animated', 'too-many-pixels', 'broken', 'too-costly', 'holds-pictures', 'not-sound',
] as const;
export type Refusal = (typeof REFUSALS)[number];

export const REMOVED = ['location', 'exif', 'xmp', 'iptc', 'colour-profile', 'comments', 'tags', 'attachments', 'trailing-bytes'] as const;
export type Removed = (typeof REMOVED)[number];
