import type { ColumnMeaning } from "./column-plan.ts";
import { meaningsOfHeader } from "./match-columns.ts";

/** What a header may mean, as `meaningsOfHeader` says it. */
export type MeaningsOf = (header: string, asWritten?: boolean) => ReadonlyArray<ColumnMeaning>;

/** Works out each header once for all that ask: a sheet's columns are looked at to part, sort, place and read it. */
export function rememberedMeanings(): MeaningsOf {
  const asked = new Map<string, ReadonlyArray<ColumnMeaning>>();
  return (header, asWritten = false) => {
    const key = asWritten ? `=${header}` : header;
    let meanings = asked.get(key);
    if (meanings === undefined) {
      meanings = meaningsOfHeader(header, asWritten);
      asked.set(key, meanings);
    }
    return meanings;
  };
}
