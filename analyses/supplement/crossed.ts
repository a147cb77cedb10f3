import type { ComparedTray, Interaction } from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import type { TreatmentDecision } from "../treatment/treatment-decision.ts";

/** A dose and another thing that the same trays had. */
export interface Crossed {
  dose: TreatmentDecision;
  second: VariedThing;
  /** trays on which both are written; `level` is the dose, `other` the second thing */
  trays: ComparedTray[];
}

/** The two things in the order in which an interaction looks at them: whose ends are compared, and at whose levels. */
export function rolesOf({ dose, second }: Crossed, { of }: Interaction): { ends: Factor; at: Factor } {
  const [first, other] = [dose.thing.factor, second.factor];
  return of === "level" ? { ends: first, at: other } : { ends: other, at: first };
}
