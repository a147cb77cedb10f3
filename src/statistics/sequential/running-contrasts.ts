import { cholesky } from "../linear-algebra/cholesky.ts";

/** One experimental unit's value: which arm (by number) in which block. */
export interface BlockedValue {
  arm: number;
  block: string;
  value: number;
}

/** An arm's mean less the first arm's, blocks allowed for. */
export interface ContrastSoFar {
  difference: number;
  standardError: number;
  sigma: number;
  degreesOfFreedom: number;
}

interface Block {
  counts: Float64Array;
  sums: Float64Array;
  squares: number;
}

/**
 * Least-squares comparison of arms within blocks (each block with a level of its own) that values can be added to: adding
 * a cook costs no more than its trays, so that a long book can be looked at as often as it was harvested.
 * @param centre any number near the values, taken off them so that sums keep their digits
 * @source two-way layout without interaction, unequal numbers: Searle 1971, Linear Models, section 7.1 (from memory)
 */
export class RunningContrasts {
  readonly #arms: number;
  readonly #centre: number;
  readonly #blocks = new Map<string, Block>();
  readonly #information: Float64Array[];
  readonly #totals: Float64Array;
  #within = 0;
  #count = 0;

  constructor(arms: number, centre: number) {
    this.#arms = arms;
    this.#centre = centre;
    this.#information = Array.from({ length: arms }, () => new Float64Array(arms));
    this.#totals = new Float64Array(arms);
  }

  /** Adds values; blocks may be new or known. */
  add(values: ReadonlyArray<BlockedValue>): void {
    const touched = new Set(values.map(({ block }) => block));
    for (const name of touched) {
      const block = this.#blocks.get(name);
      if (block !== undefined) this.#countIn(block, -1);
      else {
        const fresh = { counts: new Float64Array(this.#arms), sums: new Float64Array(this.#arms), squares: 0 };
        this.#blocks.set(name, fresh);
      }
    }
    for (const { arm, block: name, value } of values) {
      const block = this.#blocks.get(name)!;
      const centred = value - this.#centre;
      block.counts[arm]! += 1;
      block.sums[arm]! += centred;
      block.squares += centred * centred;
    }
    for (const name of touched) this.#countIn(this.#blocks.get(name)!, 1);
    this.#count += values.length;
  }

  #countIn({ counts, sums, squares }: Block, sign: 1 | -1): void {
    const size = counts.reduce((sum, count) => sum + count, 0);
    const sum = sums.reduce((total, one) => total + one, 0);
    for (let i = 0; i < this.#arms; i++) {
      if (counts[i] === 0) continue;
      this.#totals[i]! += sign * (sums[i]! - (counts[i]! * sum) / size);
      for (let j = 0; j < this.#arms; j++) {
        const shared = (counts[i]! * counts[j]!) / size;
        this.#information[i]![j]! += sign * ((i === j ? counts[i]! : 0) - shared);
      }
    }
    this.#within += sign * (squares - (sum * sum) / size);
  }

  /** Arms that hang together through blocks that hold two of them or more. */
  #pieces(): number[][] {
    const seen = new Set<number>();
    const pieces: number[][] = [];
    for (let start = 0; start < this.#arms; start++) {
      if (seen.has(start)) continue;
      seen.add(start);
      const piece = [start];
      for (const arm of piece) {
        for (let other = 0; other < this.#arms; other++) {
          if (seen.has(other) || !(this.#information[arm]![other]! < -1e-9)) continue;
          seen.add(other);
          piece.push(other);
        }
      }
      pieces.push(piece);
    }
    return pieces;
  }

  /**
   * Each arm against arm 0 with all values so far.
   * @returns by arm; undefined for arm 0, for arms no block links to it, and while nothing is left to measure scatter with
   */
  contrasts(): (ContrastSoFar | undefined)[] {
    const answer: (ContrastSoFar | undefined)[] = Array.from({ length: this.#arms }, () => undefined);
    let explained = 0;
    let rank = 0;
    const found: { arm: number; effect: number; spread: number }[] = [];
    for (const [base, ...others] of this.#pieces()) {
      if (others.length === 0) continue;
      const part = others.map((i) => Float64Array.from(others, (j) => this.#information[i]![j]!));
      const factor = cholesky(part);
      if (factor === undefined) return answer;
      const right = others.map((i) => this.#totals[i]!);
      const effects = factor.solve(right);
      explained += effects.reduce((sum, effect, k) => sum + effect * right[k]!, 0);
      rank += others.length;
      if (base !== 0) continue;
      const inverse = factor.inverse();
      others.forEach((arm, k) => {
        found.push({ arm, effect: effects[k]!, spread: Math.sqrt(inverse[k]![k]!) });
      });
    }
    const degreesOfFreedom = this.#count - this.#blocks.size - rank;
    const left = this.#within - explained;
    if (degreesOfFreedom < 1 || !(left > 1e-12 * this.#within)) return answer;
    const sigma = Math.sqrt(left / degreesOfFreedom);
    for (const { arm, effect, spread } of found) {
      answer[arm] = { difference: effect, standardError: sigma * spread, sigma, degreesOfFreedom };
    }
    return answer;
  }
}
