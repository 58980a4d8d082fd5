import { say, type Message } from '#care';
import type { Refusal, Removed } from './words.js';

const REFUSED: Readonly<Record<Refusal, Message>> = {
  'length-differs': say('Other bytes arrived than were announced. Please send it again.'),
  'checksum-differs': say('What arrived is not what was sent: its checksum differs. Please send it again.'),
  empty: say('Nothing is in it. Please send it again.'),
  'kind-differs': say('It is another kind of file than it was announced as.'),
  'not-on-the-list': say('This is no picture that we can take. Please send a JPEG, PNG or WebP.'),
  svg: say('A drawing in SVG can hold programs and is not taken. Please send a photograph of it, or a PNG.'),
  gif: say('GIF is not taken. Please send a JPEG, PNG or WebP.'),
  tiff: say('TIFF is not taken. Please send a JPEG or PNG.'),
  pdf: say('PDF is not taken as a photograph. Please send a JPEG or PNG of the page.'),
  heic: say('HEIC is not taken. Please set the telephone to “Most compatible”, or send a JPEG.'),
  document: say('This is a document or an archive, and no photograph or recording.'),
  animated: say('Moving pictures are not taken. Please send a single picture.'),
  'too-many-pixels': say('The picture has more pixels than we take (40 million, or 30,000 along one side). Please send it smaller.'),
  broken: say('The file ends too early or is damaged. Please send it again; if that does not help, take it again.'),
  'too-costly': say('Looking into it took more time or memory than we give to one file. Please send it smaller.'),
  'holds-pictures': say('It holds something else than sound, such as a film. Please send the sound alone.'),
  'not-sound': say('This is no recording that we can take. Please send WAV, MP3, M4A, Ogg or WebM.'),
};

const TAKEN_OUT: Readonly<Record<Removed, Message>> = {
  location: say('where it was taken'),
  exif: say('what the camera wrote down'),
  xmp: say('what a program wrote down (XMP)'),
  iptc: say('captions and names (IPTC)'),
  'colour-profile': say('the colour profile; the colours were converted'),
  comments: say('texts in the file'),
  tags: say('titles, names, places and pictures in its tags'),
  attachments: say('attached files'),
  'trailing-bytes': say('bytes after its end'),
};

/** Why a file was refused, for whoever sent it. */
export const refusalWords = (refusal: Refusal): Message => REFUSED[refusal];

/** What the sender's file had and ours has not. */
export const removedWords = (removed: Removed): Message => TAKEN_OUT[removed];
