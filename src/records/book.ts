import type { CostLine } from "./cost-line.ts";
import type { HarvestFieldKey } from "./harvest-field.ts";
import type { Issue, LeftOutRow } from "./issue.ts";
import type { Product } from "./product.ts";
import type { Settings } from "./setting.ts";
import type { TemperatureReading } from "./sheet.ts";
import type { Tray } from "./tray.ts";
import type { UnreadMoney } from "./unread-money.ts";

/** How one column of a harvest sheet was understood. */
export interface ColumnReading {
  file: string;
  /** as typed */
  header: string;
  /** the canonical column, or "factor" for a column passed through, or "unread" for one left out (its reason is in the log) */
  field: HarvestFieldKey | "factor" | "unread";
  /** what decided: "pinned in columns.csv", "synonym", "spelling", ... */
  because: string;
  /** unit that cells without one are read in, "" when none applies */
  unit: string;
  /** fields it may hold, where it is not read until the grower says which */
  mayBe?: ReadonlyArray<HarvestFieldKey>;
  /** the first cell with something in it, as typed; absent where no column of the sheet was looked at */
  example?: string;
}

/** Rows of the harvest sheets that hold something, and what became of them: the last four add up to the first. */
export interface RowAccount {
  filled: number;
  headers: number;
  trays: number;
  aside: number;
  /** neither of them, which is a fault */
  lost: number;
}

/** Everything the sheets of a book say, cleaned. */
export interface Book {
  /** the folder's or first file's name */
  name: string;
  settings: Settings;
  /** in the order first met */
  trays: Tray[];
  /** trays of a plan's own sheet that no date, weight or outcome says were filled; absent where there are none */
  planned?: Tray[];
  /** absent when the book has no costs.csv */
  costLines?: CostLine[];
  /** absent when the book has no products.csv */
  products?: Product[];
  /** rows of the cost and product sheets that are left out or doubtful, and what is known of them */
  unread?: UnreadMoney[];
  temperatureLog: TemperatureReading[];
  columns: ColumnReading[];
  /** the whole log, in the order of file, row, column */
  issues: Issue[];
  leftOut: LeftOutRow[];
  /** cooks that were finished at each reading of the book, this one last; absent where no record of readings is kept */
  readings?: string[][];
  /** rows of the harvest sheets, held against what became of them; absent where a book was made otherwise */
  account?: RowAccount;
  /** harvest sheets read, with their rows of data */
  harvestFiles: { file: string; rows: number }[];
}
