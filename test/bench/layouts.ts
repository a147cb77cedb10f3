import { judgeMutant } from "../layouts/judge-reading.ts";

/** Reads sheets of known truth in many seeded layouts; every one has to be read right or asked about. */
export async function benchLayouts(count: number): Promise<void> {
  const verdicts = { right: 0, asked: 0, "silent misread": 0 };
  const misread: string[] = [];
  const start = performance.now();
  for (let seed = 1; seed <= count; seed++) {
    const { verdict, typed, differences } = await judgeMutant(seed);
    verdicts[verdict]++;
    if (verdict === "silent misread")
      misread.push(`seed ${seed} (${typed.join("; ")}): ${differences.slice(0, 3).join("; ")}`);
  }
  const milliseconds = (performance.now() - start) / count;
  console.log(
    `${count} layouts: ${verdicts.right} read right, ${verdicts.asked} asked about, ${misread.length} misread without a word, ${milliseconds.toFixed(1)} ms each`,
  );
  if (misread.length > 0) throw new Error(misread.slice(0, 20).join("\n"));
}
