import type { Book } from "../../records/book.ts";
import { counted } from "../../records/counted.ts";
import { isLost, type Tray } from "../../records/tray.ts";
import { formatQuantity } from "../format-quantity.ts";
import { visibleText } from "../visible-text.ts";
import { type CertaintyWord, certaintyMeaning, VerdictPicture } from "./verdict-mark.tsx";

/** The title shown: the book's own, else its folder's name. */
export const titleOf = (book: Book): string => visibleText(book.settings.bookTitle || book.name || "Your trays", 120);

const sum = (trays: ReadonlyArray<Tray>): number => trays.reduce((total, { traysInPool }) => total + traysInPool, 0);

/** The months from a first day to a last, in the language of the page: "February to August 2026". */
function monthsText(days: ReadonlyArray<string>): string {
  const [first, last] = [days[0]!, days.at(-1)!];
  const write = (day: string, options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", ...options }).format(new Date(`${day}T00:00:00Z`));
  const whole = { month: "long", year: "numeric" } as const;
  if (first.slice(0, 7) === last.slice(0, 7)) return write(first, whole);
  return `${write(first, first.slice(0, 4) === last.slice(0, 4) ? { month: "long" } : whole)} to ${write(last, whole)}`;
}

/** What the book is made of, in one line: "96 trays in 8 cooks, February to August 2026: 77 good, 7 lost, 12 still growing". */
export function bookLine({ trays, settings }: Pick<Book, "trays" | "settings">): string {
  const count = sum(trays);
  const cooks = new Set(trays.map(({ batch }) => batch).filter((batch) => batch !== undefined)).size;
  const days = trays
    .map(({ inoculatedOn }) => inoculatedOn)
    .filter((day) => day !== undefined)
    .sort();
  const of = (wanted: (tray: Tray) => boolean) => sum(trays.filter(wanted));
  const outcomes = [
    [of(({ outcome }) => outcome === "good"), "good"],
    [of(isLost), "lost"],
    [of(({ outcome }) => outcome === "growing"), "still growing"],
    [of(({ outcome }) => outcome === "asked"), "to be answered in the log"],
  ] as const;
  const written = (trayCount: number) => formatQuantity({ value: trayCount, unit: "factor" }, settings);
  return [
    `${written(count)} ${count === 1 ? "tray" : "trays"}`,
    cooks > 0 ? ` in ${counted(cooks, "cook")}` : "",
    days.length > 0 ? `, ${monthsText(days)}` : "",
    `: ${outcomes
      .filter(([trayCount]) => trayCount > 0)
      .map(([trayCount, word]) => `${written(trayCount)} ${word}`)
      .join(", ")}`,
  ].join("");
}

const words: ReadonlyArray<CertaintyWord> = ["settled", "leaning", "open", "measured", "cannot tell"];

/** What the marks mean, once, in the head. */
const MarkLegend = () => (
  <ul class="legend" aria-label="What the marks mean">
    {words.map((certainty) => (
      <li key={certainty} title={certaintyMeaning[certainty]}>
        <VerdictPicture certainty={certainty} />
        {certainty}
      </li>
    ))}
  </ul>
);

/** The head of a report: title, what the book is made of, what the marks mean. */
export const BookHead = ({ book, hasMarks }: { book: Book; hasMarks: boolean }) => (
  <header id="top">
    <div>
      <h1>{titleOf(book)}</h1>
      <p class="facts">{bookLine(book)}</p>
    </div>
    {hasMarks ? <MarkLegend /> : null}
  </header>
);
