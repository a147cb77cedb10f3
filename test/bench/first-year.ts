import { falseAlarmsAYear } from "../analyses/measure-alarm.ts";
import { measureKeepOrBin } from "../analyses/measure-keep-or-bin.ts";
import { measureOrders, measureYears } from "../analyses/measure-year.ts";

const share = (value: number): string => `${(100 * value).toFixed(1)} %`;

/** The simulated first year, week by week through what is due, the loss alarm and orders: what was promised, and what came. */
export function benchFirstYear(years = 12): void {
  const { windows, held, byLate, badCookNamed, falseAlarms, summerHeard } = measureYears(years);
  console.log(`windows told as 8 of 10   ${windows} of ${years} years: ${share(held)} held`);
  console.log(`late after 19 of 20       ${share(byLate)} were there in time`);
  console.log(`the bad cook              named in ${share(badCookNamed)} of the years`);
  console.log(`alarms before the summer  ${falseAlarms.toFixed(2)} a year about anything else`);
  console.log(`the warm weeks            an alarm in ${share(summerHeard)} of the years`);
  for (const places of [12, 60]) {
    for (const [advice, { trays, said, came, regretted }] of Object.entries(measureKeepOrBin(years, places))) {
      const money = `said to leave ${said.toFixed(2)} more, left ${came.toFixed(2)}, worse in ${share(regretted)}`;
      console.log(`${advice} late trays, ${places} places  ${trays} trays: ${trays === 0 ? "none" : money}`);
    }
  }
  for (const pastCooks of [4, 8, 20]) {
    for (const sure of [0.8, 0.9]) {
      const { orders, promised, told, met, loads } = measureOrders(10 * years, { pastCooks, grams: 800, sure });
      console.log(
        `orders, ${pastCooks} cooks, ${sure} sure  ${promised} of ${orders} promised with ${loads.toFixed(1)} loads: told ${share(told)}, met ${share(met)}`,
      );
    }
  }
  for (const written of [false, true]) {
    const grower = { cooksAYear: 24, traysPerCook: 6, written };
    const noted = written ? "jar, place, shelf and person written down" : "cooks alone";
    for (const loss of [0.05, 0.1, 0.2]) {
      for (const clumps of [false, true]) {
        const alarms = falseAlarmsAYear({ ...grower, share: loss, clumps }, years, 2);
        console.log(
          `${clumps ? "clumped" : "steady"} losses of ${share(loss)}   ${alarms.toFixed(2)} ${clumps ? "" : "false "}alarms a year, ${noted}`,
        );
      }
    }
  }
}
