import { AppLink } from "../app-link.client.tsx";

/** What a plan's expected cost holds, and that it is no sum to be paid; as docs/decisions 24 and 25 have it. */
export const ExpectedCost = () => (
  <p className="second small">
    Expected cost is what plans are weighed by: of every unit, those left until after the plan too, the repair, its days
    off the road, life given away by being early, and being late: fuel, trouble and failures of running on past a limit.
    Repairs stand at the prices of the plan’s first Monday in every week: prices that grow would hurry what can wait.
    Most of that is no money of the workshop’s; what it may have to spend <AppLink href="/budget">the budget</AppLink>{" "}
    tells.
  </p>
);
