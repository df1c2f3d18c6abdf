import { leftOutSentences } from "../../../lib/budget/left-out.ts";
import type { BudgetDocument } from "../../../lib/schema/budget-document.ts";
import { AppLink } from "../app-link.client.tsx";
import { modelAddress } from "../models/address.ts";

/** The units whose money is in no figure, why, and the way to mend it; nothing where there are none. */
export function LeftOutNote({ document }: { readonly document: BudgetDocument }) {
  const { leftOut = [] } = document;
  const says = leftOutSentences(leftOut);
  if (says.length === 0) return null;
  const models = [...new Set(leftOut.flatMap(({ why, engineModel }) => (why === "no-costs" ? [engineModel] : [])))];
  return (
    <div className="caution" role="note">
      {says.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {models.length > 0 && (
        <p className="no-print">
          {models.toSorted().map((model) => (
            <AppLink key={model} href={modelAddress(model)}>
              Costs of {model}
            </AppLink>
          ))}
        </p>
      )}
    </div>
  );
}
