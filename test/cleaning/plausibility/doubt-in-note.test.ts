import { expect, test } from "vitest";
import { harvestOf, trayOf } from "../book-of.ts";

/** Notes on weighed trays, as growers type them. Common practice, no source. */
const ofTray = [
  ...[
    "maybe swapped with A3",
    "labels mixed up w/ 4?",
    "could be tray 7",
    "A3 or A4?",
    "not sure, maybe A4",
    "lost label",
  ],
  ...["mit Nr. 4 verwechselt", "Nummer unleserlich", "evtl. Schale 4", "étiquette illisible", "bac 4 ?"],
  ...["quizás intercambiada con A3", "forse scambiata con A3", "etiket kwijt", "zamieniona z A3", "talvez bandeja 4"],
];
const ofAmount = [
  ...["scales were 15 g out", "scale off", "only half picked", "weighed damp", "guess", "approx weight", "from memory"],
  ...["double dosed by mistake", "reinoculated on day 6", "only weighed the big cluster"],
  ...["dropped half on the floor before weighing"],
  ...["weight?", "ok, dry weight not sure", "maybe 6 ml", "weighed without tare", "still drying"],
  ...["Waage defekt", "feucht gewogen", "aus dem Gedächtnis", "Gewicht unsicher", "teilweise geerntet"],
  ...["balance déréglée", "poids approximatif", "peso a ojo", "báscula mal", "peso stimato", "pesato umido"],
  ...["only 8 ml left in the syringe", "actually 12 ml", "spilled about 2 ml", "gave 8 ml instead of 5", "nur 3 ml"],
  ...["some left on the block", "half given to a neighbour (not weighed)", "2nd flush not weighed", "more to come"],
  ...[
    "noch etwas am Block",
    "Rest nicht gewogen",
    "il en reste sur le bloc",
    "la mitad sin pesar",
    "2nd flush pinning",
  ],
  ...["gewicht geschat", "weegschaal stuk", "waga zepsuta", "około 210 g", "balança errada", "peso incerto"],
];
const plain = [
  ...["half price bag", "swapped the fan", "approx 22 C", "approx. 12 pins", "scale model", "swapped shelf with A3"],
  ...["maybe 10 days", "maybe too wet", "next to A3", "check A3", "mixed up 2 bags of rye", "new scale", "good label"],
  ...["only 5 ml", "all 5 ml in", "only 20 ml of water added", "12 ml of LC left in jar 2"],
  ...["left on the shelf", "sold half at market", "both flushes weighed", "not weighed again", "first pins on day 9"],
  ...[
    "same jar as tray 7",
    "picked in 2 goes",
    "heater off",
    "half the pins aborted",
    "lost half a day",
    "handsome clump fell over",
    "est. value 4 $",
  ],
  ...["Deckel getauscht", "ca. 22 °C", "vielleicht zu nass", "environ 3 semaines", "échangé le couvercle"],
  ...["aprox. 12 días", "circa 20 giorni", "ongeveer 12 dagen", "zamieniona półka z A3", "talvez mais luz"],
];

const noted = async (note: string) => {
  const cell = `"${note}"`;
  return harvestOf(`Tray,LC ml,Fresh g,Dry g,Notes\nB1,5,210,21,\nB2,5,205,20,${cell}\nB3,10,240,24,\nB4,10,244,25,\n`);
};
const told = (reason: string, { issues }: Awaited<ReturnType<typeof noted>>): boolean =>
  issues.some(({ rule, row, column, ...issue }) => {
    return rule === "doubt-in-note" && row === 3 && column === "Notes" && issue.reason.includes(reason);
  });

test.each([...ofTray.map((note) => [note, "which tray"]), ...ofAmount.map((note) => [note, "not sure"])])(
  "%j flags its tray, whose weights are used",
  async (note, reason) => {
    const book = await noted(note!);
    expect(told(reason!, book)).toBe(true);
    expect(trayOf(book, "B2")).toMatchObject({ freshGrams: 205, dryGrams: 20, flags: ["doubt-in-note"] });
  },
);

test.each(plain)("%j doubts nothing", async (note) => {
  expect(trayOf(await noted(note), "B2").flags).not.toContain("doubt-in-note");
});
