/** Records as columns: a column's cells one after the other, or numbers into a list of its different texts. */
export interface PackedRecords {
  count: number;
  columns: Record<string, unknown[] | { texts: string[]; at: (number | null)[] }>;
}

/** Whether writing each different text once is shorter. */
const repeats = (cells: ReadonlyArray<unknown>): cells is (string | null)[] =>
  cells.every((cell) => cell === null || typeof cell === "string") && new Set(cells).size * 2 < cells.length;

/**
 * Records of like shape by column, so that names of properties and repeated texts stand once. A property that is absent
 * or undefined is absent after unpacking; null is not kept apart from it.
 * @param records plain data that JSON can hold
 */
export function packRecords(records: ReadonlyArray<object>): PackedRecords {
  const columns: PackedRecords["columns"] = {};
  for (const key of new Set(records.flatMap((record) => Object.keys(record)))) {
    const cells = records.map((record) => (record as Record<string, unknown>)[key] ?? null);
    if (!repeats(cells)) {
      columns[key] = cells;
      continue;
    }
    const places = new Map<string, number>();
    const at = cells.map((cell) => {
      if (cell === null) return null;
      const place = places.get(cell) ?? places.size;
      places.set(cell, place);
      return place;
    });
    columns[key] = { texts: [...places.keys()], at };
  }
  return { count: records.length, columns };
}

/** The records that were packed. */
export function unpackRecords<T>({ count, columns }: PackedRecords): T[] {
  const records = Array.from({ length: count }, (): Record<string, unknown> => ({}));
  for (const [key, cells] of Object.entries(columns)) {
    for (const [index, record] of records.entries()) {
      if (Array.isArray(cells)) {
        if (cells[index] !== null) record[key] = cells[index];
        continue;
      }
      const place = cells.at[index];
      if (place !== null && place !== undefined) record[key] = cells.texts[place];
    }
  }
  return records as T[];
}
