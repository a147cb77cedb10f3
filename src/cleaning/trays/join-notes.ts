/** Several remarks about one tray as one, each once, in alphabetical order; remarks that are all the same stay as they are. */
export function joinNotes(notes: ReadonlyArray<string>): string {
  const different = new Set(notes);
  if (different.size === 1) return notes[0]!;
  return [...new Set([...different].flatMap((note) => note.split(" | ")))].sort().join(" | ");
}
