import { variedThings } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";
import { tray } from "../costing/sample-records.ts";

/** Names of cooks. */
export const cooks = ["A", "B", "C", "D"];
/** Six trays of each cook, by their place in it. */
export const inside = (of: (place: number, cook: string) => Partial<Tray>): Tray[] =>
  cooks.flatMap((batch) => Array.from({ length: 6 }, (_, place) => tray({ batch, ...of(place, batch) })));

/** The columns that varied, in the order they are asked about. */
export const keys = (trays: Tray[], wanted?: string) => variedThings(trays, wanted).map(({ factor }) => factor.key);
