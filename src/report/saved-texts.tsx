import { createContext } from "preact";
import { useContext } from "preact/hooks";

/** The cells of a table as they were shown in the saved book. */
export interface SavedRows {
  columns: number;
  rows: ReadonlyArray<ReadonlyArray<string>>;
}

/** What the report said when it was saved, for holding a changed book against it. */
export interface SavedTextsOf {
  /** by the table's place on the page */
  tables: ReadonlyMap<string, SavedRows>;
  /** answers' sentences by question */
  sentences: ReadonlyMap<string, string>;
  /** answers' large numbers by question */
  figures: ReadonlyMap<string, string>;
  /** answers' verdicts by question */
  verdicts: ReadonlyMap<string, string>;
}

/** Set where a report is changed while it is read; a report as it is written has none. */
export const SavedTexts = createContext<SavedTextsOf | undefined>(undefined);

/** Whether two texts read the same; spaces of any kind and number do not count. */
export const sameText = (a: string, b: string): boolean =>
  a.replace(/\s+/g, " ").trim() === b.replace(/\s+/g, " ").trim();

/** What a sentence was in the saved book, where it has changed. */
export function SavedSentence({ id, text }: { id: string; text: string }) {
  const saved = useContext(SavedTexts)?.sentences.get(id);
  if (saved === undefined || sameText(saved, text)) return null;
  return (
    <p class="was-sentence">
      <strong>Changed.</strong> In the saved book: {saved}
    </p>
  );
}

/** What a large number was in the saved book, where it has changed. */
export function WasFigure({ id, text }: { id: string; text: string }) {
  const saved = useContext(SavedTexts)?.figures.get(id);
  return saved === undefined || sameText(saved, text) ? null : <span class="was">was {saved}</span>;
}
