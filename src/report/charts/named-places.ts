import { labelText } from "../visible-text.ts";
import { chartFontSize } from "./chart-theme.ts";
import { letterWidth } from "./letter-width.ts";

/** Named places on an axis or in a legend, in order. Keys are the drawing's own, so no name can clash or act as code. */
export interface NamedPlaces {
  keys: string[];
  /** @throws RangeError if there is no such name */
  keyOf(name: string): string;
  /** pixels of the widest line */
  widest: number;
  /** lines of the tallest label */
  lines: number;
}

/** between the place's number and its label */
const separator = "\u001f";

/** turns a key back into the lines of its label */
export const placeLabel = "split(split(datum.label, '\\u001f')[1], '\\n')";

/** Breaks an axis title into as many lines as it needs. */
export const titleLines = (title: string): string[] => wrap(title, 44, 3);

/** Breaks a label into at most `lines` lines of about `letters` letters. */
function wrap(text: string, letters: number, lines: number): string[] {
  const wrapped: string[] = [""];
  for (const word of text.split(" ")) {
    const line = wrapped.at(-1)!;
    if (line !== "" && line.length + 1 + word.length > letters && wrapped.length < lines) wrapped.push(word);
    else wrapped[wrapped.length - 1] = line === "" ? word : `${line} ${word}`;
  }
  return wrapped.map((line) => (line.length > letters ? `${line.slice(0, letters - 1).trimEnd()}…` : line));
}

/**
 * Places for names in the order given, repeated names once.
 * @param letters letters to a line; @param lines lines at most
 * @param below a second label under each name
 */
export function namedPlaces(
  names: ReadonlyArray<string>,
  { letters, lines, below }: { letters: number; lines: number; below?: (name: string) => string },
): NamedPlaces {
  const labels = [...new Set(names)].map((name) => ({
    name,
    lines: [
      ...wrap(labelText(name, letters * lines * 2), letters, lines),
      ...(below === undefined ? [] : [below(name)]),
    ],
  }));
  const places = new Map(
    labels.map(({ name, lines: text }, index) => [name, `${index}${separator}${text.join("\n")}`]),
  );
  const widths = labels.flatMap(({ lines: text }) => text.map((line) => letterWidth(line, chartFontSize)));
  return {
    keys: [...places.values()],
    keyOf(name) {
      const key = places.get(name);
      if (key === undefined) throw new RangeError(`namedPlaces: no place is named ${JSON.stringify(name)}`);
      return key;
    },
    widest: Math.max(1, ...widths),
    lines: Math.max(1, ...labels.map(({ lines: text }) => text.length)),
  };
}
