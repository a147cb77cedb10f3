import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { bookPrices } from "../../analyses/costs/book-prices.ts";
import { whatToMakeAnalysis } from "../../analyses/prices/what-to-make.ts";
import { costAccount } from "../../src/costing/trays/cost-account.ts";
import { emptyPlaces } from "../../src/costing/trays/empty-places.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { answerOf, cellOf, demoMoneyTrial } from "../analyses/money-books.ts";

const page = readFileSync(new URL("../../docs/money-traced.md", import.meta.url), "utf8");

/** The page's rows: what it is, the sum as it is written, and what it comes to as printed. */
const rows = page
  .split("\n")
  .filter((text) => text.startsWith("| ") && !text.includes("by hand"))
  .map((text) => {
    const [label, sum, printed] = text
      .slice(1, -1)
      .split("|")
      .map((cell) => cell.trim());
    return { label: label!, sum: sum!, printed: printed! };
  });

/** Works a written sum out: numbers, + − × ÷ ^ and brackets, with the usual precedence. */
function worked(sum: string): number {
  const tokens = [...sum.matchAll(/\d+(?:\.\d+)?|[+−×÷^()]/g)].map(([token]) => token);
  if (tokens.join("") !== sum.replaceAll(" ", "")) throw new Error(`not a sum: ${sum}`);
  let at = 0;
  const atom = (): number => {
    const token = tokens[at++];
    if (token !== "(") return Number(token);
    const inside = added();
    if (tokens[at++] !== ")") throw new Error(`a bracket is open: ${sum}`);
    return inside;
  };
  const power = (): number => {
    const base = atom();
    if (tokens[at] !== "^") return base;
    at++;
    return base ** power();
  };
  const timed = (): number => {
    let value = power();
    while (tokens[at] === "×" || tokens[at] === "÷") value = tokens[at++] === "×" ? value * power() : value / power();
    return value;
  };
  const added = (): number => {
    let value = timed();
    while (tokens[at] === "+" || tokens[at] === "−") value = tokens[at++] === "+" ? value + timed() : value - timed();
    return value;
  };
  const value = added();
  if (at !== tokens.length) throw new Error(`left over: ${sum}`);
  return value;
}

/** A printed figure is right to half of its last digit, and a little for factors that are printed rounded. */
function expectPrinted(label: string, printed: string, value: number): void {
  const decimals = printed.split(".")[1]?.length ?? 0;
  expect(Math.abs(value - Number(printed)), `${label}: ${value} is printed as ${printed}`).toBeLessThanOrEqual(
    0.51 * 10 ** -decimals,
  );
}

test("every sum on the page comes to what is printed beside it", () => {
  expect(rows.length).toBeGreaterThan(45);
  for (const { label, sum, printed } of rows) expectPrinted(label, printed, worked(sum));
});

test("every figure on the page is what the program gives for the demo book", async () => {
  const trial = await demoMoneyTrial();
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") throw new Error(prices.reason);
  const { costs, fixed } = prices;
  const account = costAccount(costs, "full");
  if (account.kind === "cannot-tell") throw new Error(account.reason);
  const { dried, fresh } = account.perGram;
  const slices = prices.list[0]!.priced;
  if (dried.kind !== "gram-cost" || fresh.kind !== "gram-cost" || slices.kind !== "priced") throw new Error("no cost");
  const make = answerOf(whatToMakeAnalysis.run(trial));
  const usual = (column: string) => Number(cellOf(make, "The month in three cases", "usual", column));
  const brings = (name: string) => Number(cellOf(make, "What to make in a month", name, "brings, usual month"));
  const rent = emptyPlaces(costs)[0]!;
  const idle = costs.unabsorbed.reduce((sum, { amount }) => sum + amount, 0);
  const finished = costs.trays.flatMap((tray, index) => (hasEnded(tray) ? [index] : []));
  const onFinished = (item: string): number => {
    const row = costs.items.findIndex((one) => one.item === item);
    return finished.reduce((sum, index) => sum + costs.amounts[row]![index]!, 0);
  };
  const insurance = costs.items.findIndex(({ item }) => item === "insurance and phone");
  const carried = costs.amounts[insurance]!.reduce((sum, amount) => sum + amount, 0);
  const listed = (price: typeof slices.breakEven): number => (price.kind === "listed" ? price.exact : Number.NaN);
  const now = "price" in slices.current ? slices.current : undefined;
  const paid = (item: string): number => fixed!.lines.find((line) => line.item === item)!.amount;
  const { loss } = account;
  const figures: Record<string, number> = {
    ...Object.fromEntries(costs.items.map(({ item }) => [item, onFinished(item)])),
    together: loss.costPerStarted * loss.started,
    "a started tray": loss.costPerStarted,
    "a good tray, all losses in it": loss.costPerGoodWithAllLosses,
    "a good dry gram, all losses in it": dried.withAllLosses,
    "spent on the 7 lost trays": account.lostAt.reduce((sum, { cost }) => sum + cost, 0),
    "usual losses, 6 % of 84 starts": loss.normalCost,
    "losses beyond the usual": loss.abnormalCost,
    "losses beyond the usual, in a dry gram": dried.withAllLosses - dried.withNormalLoss,
    "a good fresh gram, without drying": fresh.withAllLosses,
    "insurance and phone, seven months": carried + idle,
    "carried by the 96 started trays": carried,
    "idle capacity": idle,
    "shed rent for 40 places, 193 days": rent.paid,
    "carried by the trays that stood there": rent.paid - rent.empty,
    "empty places": rent.empty,
    "grams for one bag sold, 97 % sold": slices.unit.gramsNeeded,
    mushrooms: slices.unit.mushrooms,
    "packing and sending, work": slices.unit.parts.find(({ item }) => item === "packing and sending, work")!.amount,
    "full cost": slices.unit.full,
    "break-even price": listed(slices.breakEven),
    "price for a margin of 35 %": listed(slices.target),
    "earned at today's 24.90": now!.profit,
    "margin at today's 24.90": now!.margin,
    "trays that can be started": (40 * (365.25 / 12)) / prices.perTray!.shelfDays!,
    "slices bring, 10 bags": brings("dried slices 50 g, web shop"),
    "powder brings, 11 bags": brings("powder 30 g, market place"),
    "cooker, paid anyway": paid("cooker"),
    "shed rent, paid anyway, all places": paid("shed rent"),
    "insurance and phone, paid anyway": paid("insurance and phone"),
    "paid anyway, together": fixed!.total,
    "profit of the month, before own time": usual("profit before your own time"),
  };
  for (const { label, printed } of rows) {
    expect(figures, label).toHaveProperty([label]);
    expectPrinted(label, printed, figures[label]!);
  }
  expect(rows.map(({ label }) => label).sort()).toEqual(Object.keys(figures).sort());
});
