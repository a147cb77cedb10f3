/** One tray of a planned trial: where it stands and what it gets. */
export interface PlannedTray {
  trayId: string;
  cook: string;
  load: string;
  /** place in the load, from 1 */
  position: number;
  /** chamber it will fruit in; absent when the trial does not vary chambers */
  chamber?: string;
  /** levels of the treatments, by canonical column */
  treatments: Record<string, string>;
}

/** How a planned trial is arranged. */
export type Arrangement = "randomised blocks" | "Latin square over load places" | "split plot over chambers";

/** A planned trial. */
export interface TrialPlan {
  arrangement: Arrangement;
  trays: PlannedTray[];
  seed: number;
}

/** A source of random orders. */
export interface Shuffler {
  shuffle<T>(values: ReadonlyArray<T>): T[];
}

export interface BlocksInput {
  /** treatment levels each cook holds, one entry per arm */
  arms: ReadonlyArray<Record<string, string>>;
  traysPerArm: number;
  /** names of the cooks to come, in order */
  cooks: ReadonlyArray<string>;
  /** trays one cooker load holds */
  traysPerLoad: number;
  seed: number;
  random: Shuffler;
  /** what tray names begin with */
  prefix: string;
}

const trayName = (prefix: string, cook: string, number: number): string =>
  `${prefix}${cook}-${String(number).padStart(2, "0")}`;

function requireInput(
  routine: string,
  input: { arms: ReadonlyArray<unknown>; traysPerArm: number; cooks: ReadonlyArray<string>; traysPerLoad: number },
): void {
  if (input.arms.length < 2)
    throw new RangeError(`${routine}: a trial needs at least 2 arms; received ${input.arms.length}`);
  for (const [name, value] of Object.entries({ traysPerArm: input.traysPerArm, traysPerLoad: input.traysPerLoad })) {
    if (!Number.isInteger(value) || value < 1)
      throw new RangeError(`${routine}: ${name} must be a whole number of 1 or more; received ${value}`);
  }
  if (input.cooks.length < 1 || new Set(input.cooks).size < input.cooks.length) {
    throw new RangeError(
      `${routine}: cooks must be one or more different names; received ${input.cooks.join(", ") || "none"}`,
    );
  }
}

/**
 * Randomised complete blocks: every cook holds every arm equally often; where a cook takes several loads, the arms are
 * spread over the loads as evenly as they go, and the order within each load is random.
 * @throws RangeError if there are fewer than 2 arms, no cook, or a count is not a whole number of 1 or more
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 5.3.3.2
 */
export function randomisedBlocks(input: BlocksInput): TrialPlan {
  requireInput("randomisedBlocks", input);
  return blocksOf(input);
}

/** Randomised blocks of checked input; of one arm, too. */
function blocksOf(input: BlocksInput): TrialPlan {
  const { arms, traysPerArm, cooks, traysPerLoad, random, prefix, seed } = input;
  const loadsPerCook = Math.ceil((arms.length * traysPerArm) / traysPerLoad);
  const trays = cooks.flatMap((cook) => {
    // dealing shuffled rounds of all arms one after the other gives each load nearly the same number of each arm
    const dealt = Array.from({ length: traysPerArm }, () => random.shuffle(arms)).flat();
    const perLoad = Math.ceil(dealt.length / loadsPerCook);
    let number = 0;
    return Array.from({ length: loadsPerCook }, (_, load) => {
      const share = random.shuffle(dealt.slice(load * perLoad, (load + 1) * perLoad));
      return share.map((treatments, place) => ({
        trayId: trayName(prefix, cook, ++number),
        cook,
        load: loadsPerCook === 1 ? cook : `${cook}${String.fromCharCode(97 + load)}`,
        position: place + 1,
        treatments,
      }));
    }).flat();
  });
  return { arrangement: "randomised blocks", trays, seed };
}

/**
 * Latin square: as many cooks, and places (or groups of places) in the load, as arms; each arm stands once in every cook
 * and once in every place. Rows, columns and letters of the cyclic square are put in random order.
 * @throws RangeError if the number of cooks differs from the number of arms, or a load holds fewer trays than that
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 5.3.3.2.1
 */
export function latinSquareOverPlaces(input: Omit<BlocksInput, "traysPerArm">): TrialPlan {
  requireInput("latinSquareOverPlaces", { ...input, traysPerArm: 1 });
  const { arms, cooks, traysPerLoad, random, prefix, seed } = input;
  const size = arms.length;
  if (cooks.length !== size || traysPerLoad < size) {
    throw new RangeError(
      `latinSquareOverPlaces: ${size} arms need ${size} cooks and loads of at least ${size} trays; received ${cooks.length} cooks and loads of ${traysPerLoad}`,
    );
  }
  const numbers = arms.map((_, index) => index);
  const [rows, columns, letters] = [random.shuffle(numbers), random.shuffle(numbers), random.shuffle(numbers)];
  const trays = cooks.flatMap((cook, row) =>
    numbers.map((place) => ({
      trayId: trayName(prefix, cook, place + 1),
      cook,
      load: cook,
      position: place + 1,
      treatments: arms[letters[(rows[row]! + columns[place]!) % size]!]!,
    })),
  );
  return { arrangement: "Latin square over load places", trays, seed };
}

/**
 * Which setting each chamber gets in each cook: over as many cooks as there are chambers every chamber gets every setting
 * once (a Latin square with its columns and rows drawn at random), so that no setting ever belongs to one chamber.
 */
function swappedSettings<T>(settings: ReadonlyArray<T>, cooks: number, random: BlocksInput["random"]): T[][] {
  const places = settings.map((_, place) => place);
  let [columns, shifts] = [places, places];
  return Array.from({ length: cooks }, (_, cook) => {
    const row = cook % settings.length;
    if (row === 0) [columns, shifts] = [random.shuffle(places), random.shuffle(places)];
    return places.map((place) => settings[(columns[place]! + shifts[row]!) % settings.length]!);
  });
}

/**
 * Split plot: in every cook each chamber gets one setting, swapped from cook to cook in a drawn order, and each chamber gets
 * every arm equally often. The setting is compared between chamber runs, the arms between trays; one arm alone leaves only
 * the settings to compare.
 * @param chambers names of the chambers
 * @param settings levels of what is set per chamber, by canonical column; as many as chambers
 * @throws RangeError if settings and chambers differ in number, or as `randomisedBlocks`
 * @source Yates 1935, Supplement to the Journal of the Royal Statistical Society 2(2):181-247
 */
export function splitPlotOverChambers(
  input: BlocksInput & { chambers: ReadonlyArray<string>; settings: ReadonlyArray<Record<string, string>> },
): TrialPlan {
  const { chambers, settings, random } = input;
  if (chambers.length < 2 || settings.length !== chambers.length) {
    throw new RangeError(
      `splitPlotOverChambers: needs 2 or more chambers and as many settings; received ${chambers.length} and ${settings.length}`,
    );
  }
  requireInput("splitPlotOverChambers", { ...input, arms: [...input.arms, ...settings] });
  const blocks = blocksOf({
    ...input,
    traysPerArm: input.traysPerArm * chambers.length,
  });
  const setIn = swappedSettings(settings, input.cooks.length, random);
  const trays = input.cooks.flatMap((cook, run) => {
    const setFor = setIn[run]!;
    const counts = new Map<string, number>();
    return blocks.trays
      .filter((tray) => tray.cook === cook)
      .map((tray) => {
        // trays of one arm, met in random order, are dealt to the chambers in turn
        const arm = JSON.stringify(tray.treatments);
        const met = counts.get(arm) ?? 0;
        counts.set(arm, met + 1);
        const chamber = met % chambers.length;
        return {
          ...tray,
          chamber: chambers[chamber]!,
          treatments: { ...tray.treatments, ...setFor[chamber]! },
        };
      });
  });
  return { arrangement: "split plot over chambers", trays, seed: input.seed };
}
