import { MultiBar, Presets, type SingleBar } from 'cli-progress';

/** One line of progress. */
export interface Bar {
  advance(by?: number, note?: string): void;
  /** The whole, when it turns out to be another. */
  total(whole: number): void;
  done(note?: string): void;
}

/** Progress for people: bars on a terminal, else a plain line every tenth part, so that logs stay readable. */
export interface Progress {
  bar(name: string, whole: number): Bar;
  /** A line that stays. */
  say(line: string): void;
  end(): void;
}

export interface Out {
  isTTY?: boolean;
  write(text: string): unknown;
}

export function createProgress(out: Out & NodeJS.WritableStream = process.stdout): Progress {
  return out.isTTY === true ? terminalBars(out) : plainLines(out);
}

function terminalBars(out: NodeJS.WritableStream): Progress {
  const bars = new MultiBar({ format: ' {name} {bar} {percentage} % {note}', hideCursor: true, barsize: 30, stream: out, forceRedraw: true, emptyOnZero: true }, Presets.shades_grey);
  return {
    bar: (name, whole) => {
      const bar: SingleBar = bars.create(whole, 0, { name: name.padEnd(8), note: '' });
      return {
        advance: (by = 1, note) => bar.increment(by, note === undefined ? {} : { note }),
        total: (all) => bar.setTotal(all),
        done: (note) => bar.update(bar.getTotal(), note === undefined ? {} : { note }),
      };
    },
    say: (line) => bars.log(`${line}\n`),
    end: () => bars.stop(),
  };
}

function plainLines(out: Out): Progress {
  const line = (text: string) => void out.write(`${text}\n`);
  return { bar: (name, whole) => plainBar(name, whole, line), say: line, end: () => undefined };
}

function plainBar(name: string, whole: number, line: (text: string) => void): Bar {
  let [at, all, shown] = [0, whole, 0];
  const show = (note?: string) => {
    shown = tenth();
    line(`${name}: ${shown * 10} %${note ? ` (${note})` : ''}`);
  };
  const tenth = () => (all === 0 ? 10 : Math.min(10, Math.floor((at / all) * 10)));
  return {
    advance(by = 1, note) {
      at += by;
      if (tenth() > shown) show(note);
    },
    total: (other) => void (all = other),
    done(note) {
      at = all;
      if (shown < 10 || note !== undefined) show(note);
    },
  };
}
