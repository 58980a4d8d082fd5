import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Book } from '../driver/book.js';
import type { ClimateReport } from '../driver/climate-day.js';
import { DAY } from '../calibration.js';

const HOUR_MS = 3_600_000;
const HOURS_AHEAD = 24;

/** Has the API draw each room and the thing that was weighed most often, and writes the pictures into `directory`. Answers lines with their paths. */
export async function writePlots(reports: ReadonlyMap<Book, ClimateReport>, directory: string): Promise<string[]> {
  await mkdir(directory, { recursive: true });
  const lines: string[] = [];
  const draw = async (book: Book, path: string, name: string, what: string) => {
    const file = join(directory, `${name}.svg`);
    const hoursBack = Math.ceil((DAY.endsAtMs - DAY.preparedAtMs) / HOUR_MS);
    await writeFile(file, await book.api.get<string>(`${path}?hoursBack=${hoursBack}&hoursAhead=${HOURS_AHEAD}`));
    lines.push(`  ${file}  (${what})`);
  };
  for (const [book, { measuring, mostWeighed }] of reports) {
    for (const room of measuring.rooms) await draw(book, `/v1/drying-rooms/${room.roomId}/climate/plot`, room.site.code.toLowerCase(), `${room.site.name}, ${room.roomName.toLowerCase()}`);
    const thing = mostWeighed === null ? undefined : book.items.get(mostWeighed);
    if (thing) await draw(book, `/v1/items/${thing.item.id}/climate/plot`, 'one-thing', thing.thing.object);
  }
  return ['pictures:', ...lines];
}
