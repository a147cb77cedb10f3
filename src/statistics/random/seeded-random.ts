/** A repeatable source of random numbers: the same seed gives the same stream on every machine. */
export interface SeededRandom {
  /** a number from 0 (included) to 1 (left out), with 53 random bits */
  uniform(): number;
  /** a whole number from 0 to `below` - 1, each equally likely */
  integer(below: number): number;
  /** a draw from the normal distribution with mean 0 and variance 1 */
  normal(): number;
  /** the values in a random order, each order equally likely; the input is left as it was */
  shuffle<T>(values: ReadonlyArray<T>): T[];
}

const mask32 = 0xffffffffn;
const mask64 = (1n << 64n) - 1n;

/**
 * Spreads one seed over the four words of the generator's state.
 * @source Vigna, splitmix64.c (public domain), https://prng.di.unimi.it/splitmix64.c
 */
function spreadSeed(seed: number): Int32Array {
  let state = BigInt(seed) & mask64;
  const words = new Int32Array(4);
  for (let pair = 0; pair < 2; pair++) {
    state = (state + 0x9e3779b97f4a7c15n) & mask64;
    let z = state;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & mask64;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & mask64;
    z ^= z >> 31n;
    words[2 * pair] = Number(z & mask32) | 0;
    words[2 * pair + 1] = Number(z >> 32n) | 0;
  }
  return words;
}

/**
 * Starts a repeatable random stream.
 * @param seed a whole number from 0 to 2^53 - 1
 * @throws RangeError if the seed is anything else
 * @source xoshiro128**, Blackman and Vigna 2021, ACM Transactions on Mathematical Software 47(4), article 36; normal
 *   draws: Marsaglia's polar method, Marsaglia and Bray 1964, SIAM Review 6(3):260-264; shuffle: Fisher and Yates,
 *   Durstenfeld 1964, Communications of the ACM 7(7):420
 * @example seededRandom(1).integer(6) === seededRandom(1).integer(6) // true
 */
export function seededRandom(seed: number): SeededRandom {
  if (!Number.isSafeInteger(seed) || seed < 0) {
    throw new RangeError(`seededRandom: the seed must be a whole number of 0 or more; received ${seed}`);
  }
  const next32 = generator(spreadSeed(seed));
  let spareNormal: number | undefined;
  const uniform = (): number => ((next32() >>> 5) * 67108864 + (next32() >>> 6)) / 9007199254740992;
  const integer = (below: number): number => {
    if (!Number.isInteger(below) || below < 1 || below > 4294967296) {
      throw new RangeError(`integer: the bound must be a whole number from 1 to 2^32; received ${below}`);
    }
    let drawn = next32();
    if (below === 4294967296) return drawn;
    // draws in the incomplete last block would favour small results, so they are drawn again
    if (drawn >= 4294967296 - below) {
      const limit = 4294967296 - (4294967296 % below);
      while (drawn >= limit) drawn = next32();
    }
    return (drawn >>> 0) % (below >>> 0);
  };
  const normal = (): number => {
    if (spareNormal !== undefined) {
      const spare = spareNormal;
      spareNormal = undefined;
      return spare;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const square = u * u + v * v;
      if (square > 0 && square < 1) {
        const scale = Math.sqrt((-2 * Math.log(square)) / square);
        spareNormal = v * scale;
        return u * scale;
      }
    }
  };
  const shuffle = <T>(values: ReadonlyArray<T>): T[] => {
    const order = [...values];
    for (let last = order.length - 1; last > 0; last--) {
      const other = integer(last + 1);
      [order[last], order[other]] = [order[other]!, order[last]!];
    }
    return order;
  };
  return { uniform, integer, normal, shuffle };
}

/** xoshiro128**: whole numbers from 0 to 2^32 - 1. */
function generator(words: ArrayLike<number>): () => number {
  let [a, b, c, d] = [words[0]!, words[1]!, words[2]!, words[3]!];
  return () => {
    const product = Math.imul(b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result >>> 0;
  };
}
