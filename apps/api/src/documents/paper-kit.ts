/** A kit for a power cut: how it works, an intake slip to a page, a log for each station, a sheet for each place. */
import { render, say, SIGNIFICANCE_WORDS, wordsOfAnswer, ZONE_WORDS, type Message } from '#care';
import { formatTagCode } from '#custody';
import type { PaperKitToPrint, PlaceOfKit } from '#application';
import { blankTable, BODY_MM, FlowDocument, ruledLines, tickBoxes, writtenFields } from './flow/index.js';
import { qrSideMm, qrSquares, tagQr } from './qr-squares.js';
import type { PaperStyle } from './receipt-paper.js';

/** Kinds of things as they are told at a doorway; whoever keys the slip chooses the material class from the description. */
const MATERIALS: readonly Message[] = [say('quilt or large cloth'), say('clothing'), say('letters, papers'), say('book or album'), say('photographs'), say('painting or frame'), say('wood, furniture'), say('leather'), say('tape, disc, device'), say('ceramic, glass, metal'), say('something else')];
/** In the order of the size classes of the record. */
const SIZES: readonly Message[] = [say('crib quilt'), say('throw'), say('double quilt'), say('queen quilt'), say('garment'), say('sheet of paper'), say('small photograph'), say('book')];
const WATERS = ['clean', 'grey', 'black', 'salt', 'unknown'] as const;
const ASKED: readonly Message[] = [say('First aid here: rinse, dry, clean'), say('Freezing, if there is no room to dry it'), say('Sending it to a specialist'), say('Photographs of it for the record')];

const STEPS: readonly Message[] = [
  say('Take the next slip, in the order of its number, for each thing or counted lot. Do not tear slips apart from their numbers.'),
  say('Write the day and the time at once, by the same clock for everybody. That time counts later, however late it is keyed.'),
  say('Tie the tag with the same code as on the slip to the thing. Cotton tape or a plastic tie; nothing sticky, no pins.'),
  say('Write with pencil. What you do not know stays open: an open box means that nobody asked.'),
  say('Ask the owner each of the four questions, and tick what they say. Never tick for them. Nobody agrees on paper to let a thing go.'),
  say('Stations write a line for each step into their log, places a line for each thing that comes or goes. Begin a sheet as part 1. When it is full, go on on a copy or on blank paper: the number of the sheet, part 2, lines from 1.'),
  say('Spoilt a slip? Cross it out, keep it, and take the next. Slips are never thrown away: each number is looked for afterwards.'),
  say('Slips hold names and numbers of families. Keep them in one folder, with one person who answers for it, out of the rain and out of sight.'),
  say('When the power is back, key in slips, logs and sheets, hold the numbers against the list, and keep the paper until somebody has checked it.'),
];
const SAFETY = say('River water counts as sewage: gloves, no eating or drinking at wet tables, wash your hands. Anything that smells of fuel, hisses or is sharp: leave it, step back, tell the lead.');

/** Draws the kit as PDF; the same kit in the same language has the same bytes. */
export function paperKitPdf(kit: PaperKitToPrint, { language, paper }: PaperStyle): Promise<Buffer> {
  const title = render(say('Paper kit for a power cut'), language);
  const name = kit.kit.id.slice(-4).toUpperCase();
  const foot = render(say('Kit {name}, {incident}', { name, incident: kit.incidentName }), language);
  const flow = new FlowDocument({ title, foot, language, createdAtMs: kit.kit.createdAtMs, paper });
  instructions(flow, title, kit, name);
  kit.codes.forEach((code, index) => slip(flow, { code, number: index + 1, of: kit.codes.length, kit: name }));
  for (const station of kit.stations) stationLog(flow, station, name);
  for (const place of kit.places) placeSheet(flow, place, name);
  return flow.finish();
}

function instructions(flow: FlowDocument, title: string, kit: PaperKitToPrint, name: string): void {
  flow.title(title);
  flow.text(flow.spoken(say('Kit {name}: slips 1 to {slips}, {stations, plural, one {# station log} other {# station logs}}, {places, plural, one {# place sheet} other {# place sheets}}.', { name, slips: String(kit.codes.length), stations: kit.stations.length, places: kit.places.length })));
  STEPS.forEach((step, index) => flow.text(flow.spoken(step), { indentMm: 8, mark: `${index + 1}`, beforeMm: 2.2 }));
  flow.notice(flow.spoken(SAFETY));
}

interface Slip {
  code: string;
  number: number;
  of: number;
  kit: string;
}

const MODULE_MM = 0.75;

function slip(flow: FlowDocument, { code, number, of, kit }: Slip): void {
  flow.newPage();
  const { spoken } = flow;
  const symbol = tagQr(code);
  const sideMm = qrSideMm(symbol, MODULE_MM);
  const top = flow.yMm;
  flow.draw((pdf) => pdf.filled(qrSquares(symbol, flow.leftMm + flow.widthMm - sideMm + 3, top - 3, MODULE_MM)));
  flow.line(spoken(say('Slip {number} of {of}', { number: String(number), of: String(of) })), flow.leftMm, top + 7, { sizeMm: 8, weight: 'bold' });
  flow.line(formatTagCode(code), flow.leftMm, top + 17, { sizeMm: 9, weight: 'bold' });
  flow.line(spoken(say('Kit {kit}', { kit })), flow.leftMm + 72, top + 17, { sizeMm: 4.4 });
  flow.yMm = top + sideMm - 6;
  const named = (...fields: [Message, number][]): void => writtenFields(flow, fields.map(([name, share]) => ({ name: spoken(name), share })));
  named([say('Day'), 2], [say('Time'), 2], [say('Written by'), 3]);
  named([say('Household'), 2], [say('Name'), 4]);
  named([say('Phone or e-mail'), 4], [say('Pieces'), 2]);
  // US letter is lower than A4.
  ruledLines(flow, spoken(say('What it is, and what its family says of it')), flow.pageRoomMm > 250 ? 4 : 2);
  tickBoxes(flow, spoken(say('Made of')), MATERIALS.map(spoken));
  tickBoxes(flow, spoken(say('About as large as')), SIZES.map(spoken));
  tickBoxes(flow, spoken(say('Wet from')), WATERS.map((water) => spoken(wordsOfAnswer('water', water))));
  tickBoxes(flow, spoken(say('To its family')), Object.values(SIGNIFICANCE_WORDS).map(spoken));
  asked(flow);
  named([say('Put down at'), 3], [say('The owner signs'), 3]);
}

/** Four questions, each with yes and no; open means that nobody asked. */
function asked(flow: FlowDocument): void {
  const { spoken } = flow;
  flow.text(spoken(say('The owner says')), { weight: 'bold', beforeMm: 2.4, keepMm: 10 });
  flow.yMm += 0.6;
  const [boxMm, stepMm, sizeMm] = [5, 7, 4.4];
  for (const question of ASKED) {
    flow.need(stepMm);
    const top = flow.yMm;
    [say('yes'), say('no')].forEach((answer, index) => {
      const xMm = flow.leftMm + index * 19;
      flow.draw((pdf) => pdf.frame({ xMm: xMm + 0.2, yMm: top + 0.2, widthMm: boxMm - 0.4, heightMm: boxMm - 0.4 }, 0.4));
      flow.line(spoken(answer), xMm + boxMm + 1.8, top + 4, { sizeMm });
    });
    flow.line(flow.pdf.fitted(spoken(question), flow.widthMm - 42, { sizeMm }), flow.leftMm + 40, top + 4, { sizeMm });
    flow.yMm += stepMm;
  }
}

/** Number of the sheet, name of the kit, and room for its part: what a line is found by when it is keyed in. */
function sheetNumber(flow: FlowDocument, { sheetNo }: PlaceOfKit, kit: string): void {
  const { spoken } = flow;
  flow.need(10);
  const baselineMm = flow.yMm + 6;
  const [sheet, part] = [spoken(say('Sheet {number}', { number: String(sheetNo) })), spoken(say('Part'))];
  const [large, body] = [{ sizeMm: 6.5, weight: 'bold' }, { sizeMm: BODY_MM, weight: 'bold' }] as const;
  flow.line(sheet, flow.leftMm, baselineMm, large);
  flow.line(spoken(say('Kit {kit}', { kit })), flow.leftMm + Math.max(52, flow.measure.widthMm(sheet, large) + 8), baselineMm, { sizeMm: BODY_MM });
  const partMm = flow.leftMm + flow.widthMm - 50;
  flow.line(part, partMm, baselineMm, body);
  const fromMm = partMm + flow.measure.widthMm(part, body) + 1.5;
  flow.draw((pdf) => pdf.line(fromMm, baselineMm + 0.6, flow.leftMm + flow.widthMm, baselineMm + 0.6, 0.25));
  flow.yMm += 10;
}

const NUMBER: Message = say('No.');

function stationLog(flow: FlowDocument, station: PlaceOfKit, kit: string): void {
  flow.newPage();
  const { spoken } = flow;
  flow.title(spoken(say('Station log: {name}', { name: station.name })));
  sheetNumber(flow, station, kit);
  if (station.zone !== null) flow.text(spoken(say('This station is {zone}.', { zone: ZONE_WORDS[station.zone] })));
  flow.text(spoken(say('A line for each step: when it ended, whose hands, and how. Dye moved, mould or anything sharp: stop, and write that.')));
  blankTable(flow, [
    { head: spoken(NUMBER), share: 15 }, { head: spoken(say('Day, time')), share: 24 }, { head: spoken(say('Tag')), share: 34 }, { head: spoken(say('Step')), share: 27 }, { head: spoken(say('How it ended')), share: 32 },
    { head: spoken(say('Put down at')), share: 24 }, { head: spoken(say('Who')), share: 18 },
  ], { numbered: true });
}

function placeSheet(flow: FlowDocument, place: PlaceOfKit, kit: string): void {
  flow.newPage();
  const { spoken } = flow;
  flow.title(spoken(say('Place sheet: {name}', { name: place.name })));
  sheetNumber(flow, place, kit);
  if (place.zone !== null) flow.text(spoken(say('This place is {zone}.', { zone: ZONE_WORDS[place.zone] })));
  flow.text(spoken(say('A line for each thing that comes here, and the time when it goes. What has no second time is here.')));
  blankTable(flow, [
    { head: spoken(NUMBER), share: 15 }, { head: spoken(say('Tag')), share: 37 }, { head: spoken(say('Came: day, time')), share: 33 }, { head: spoken(say('From')), share: 32 }, { head: spoken(say('Went: day, time')), share: 33 }, { head: spoken(say('Who')), share: 24 },
  ], { numbered: true });
}
