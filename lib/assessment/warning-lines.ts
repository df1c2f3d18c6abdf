import type { WarningLine } from "../schema/report.ts";
import type { EngineState } from "./engine.ts";
import { rounded } from "./rounding.ts";

/** The cylinders that left their family, as the unit's page tells them. */
export function warningLines({ cylinders }: EngineState): WarningLine[] {
  return cylinders.flatMap(({ measures }) =>
    measures.flatMap(({ earlyWarning }) => {
      if (earlyWarning === null) return [];
      const { words: _words, expected, amount, amountSince, sd, statistic, limit, ...line } = earlyWarning;
      const told = (value: number) => rounded(line.measure === "leak-down" ? value : (100 * value) / expected, 2);
      return [
        {
          ...line,
          amount: told(amount),
          amountSince: told(amountSince),
          sd: told(sd),
          statistic: rounded(statistic, 2),
          limit: rounded(limit, 2),
        },
      ];
    }),
  );
}
