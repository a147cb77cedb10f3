/** Colours of a chart's parts: names of the page's own, so that a chart follows light, dark, print and forced colours. */
export const chartColours = {
  ground: "var(--ground)",
  ink: "var(--ink)",
  quiet: "var(--quiet)",
  grid: "var(--hair)",
  range: "var(--range)",
  /** doses not ruled out, and those as good as the best */
  shade: "var(--shade)",
  deepShade: "var(--deep-shade)",
  /** below cost, or doubtful; always with a word */
  warm: "var(--alert)",
} as const;

/** From least to most in ink; neighbours are kept apart by a line of ground between them. */
export const tints = Array.from({ length: 7 }, (_, index) => `var(--tint-${index + 1})`);

/** Colours of what is kept apart by shape, not by colour. */
export const shapes = ["circle", "square", "triangle-up", "diamond"] as const;

/** How a dose looks everywhere in a report: a fixed colour and shape by its place among the doses tried. */
export interface DoseMark {
  colour: string;
  /** the same hue, dark enough for letters */
  letters: string;
  shape: (typeof shapes)[number];
  /** from the fifth dose on shapes come again, hollow */
  hollow: boolean;
}

/** doses beyond which marks are drawn alike */
export const mostDoses = 8;

/** The mark of the dose at a place, from 0; ink where there are too many doses to tell apart. */
export const doseMark = (place: number, of: number): DoseMark =>
  place < 0 || of > mostDoses
    ? { colour: chartColours.quiet, letters: chartColours.ink, shape: "circle", hollow: true }
    : {
        colour: `var(--dose-${place + 1})`,
        letters: `var(--dose-${place + 1}-ink)`,
        shape: shapes[place % shapes.length]!,
        hollow: place >= shapes.length,
      };
