import type { PlanScope, RepairClass } from "../schema/kept-plan.ts";
import type { RepairScope } from "../schema/words.ts";

const byScope: Readonly<Record<PlanScope | RepairScope, readonly RepairClass[]>> = {
  "top-end": ["topEnd"],
  "bottom-end": ["bottomEnd"],
  both: ["topEnd", "bottomEnd"],
  exchange: ["topEnd", "bottomEnd"],
  complete: ["topEnd", "bottomEnd"],
  "engine-swap": ["topEnd", "bottomEnd"],
  adjustment: [],
};

/** The classes of repair that a planned work, or one that was recorded, puts right. */
export const cures = (scope: PlanScope | RepairScope): readonly RepairClass[] => byScope[scope];
