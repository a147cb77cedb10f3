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
  /** the most trays, or money, that the trial may take */
  mostTrays?: number;
  mostMoney?: number;
}
