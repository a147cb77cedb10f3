/** How a next trial is to be arranged. */
export type WantedLayout = "blocks" | "latin" | "split";

/** What the grower has already decided; the rest is proposed. */
export interface TrialWishes {
  /** mL per tray */
  doses?: ReadonlyArray<number>;
  /** trays of each dose in each cook (and chamber) */
  traysPerDose?: number;
  cooks?: number;
  layout: WantedLayout;
  /** chambers a split plot runs over */
  chambers: number;
  /** their fruiting temperatures, °C */
  celsius?: ReadonlyArray<number>;
  /** levels of another thing with each of which every dose is grown; absent where none is */
  crossed?: number;
  /** the most trays, or money, that the trial may take */
  mostTrays?: number;
  mostMoney?: number;
}

/** How often each level of what is varied stands in a round of a cook: once in every chamber, with every level of another thing. */
export const timesARound = ({ layout, chambers, crossed = 1 }: Pick<TrialWishes, "layout" | "chambers" | "crossed">) =>
  (layout === "split" ? chambers : 1) * crossed;
