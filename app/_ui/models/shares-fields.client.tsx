"use client";

import { Textarea, TextInput } from "@mantine/core";
import { type Cause, causes } from "../../../lib/schema/words.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import type { SharesDraft } from "./model-draft.ts";

/** A model's own shares of the causes before anything is seen, as fields of the form of its evidence. */
export function SharesFields(props: {
  readonly own: SharesDraft;
  /** What holds for this model while it has none of its own, strip-downs counted; by cause, as it is read. */
  readonly holds: Readonly<Record<Cause, string>>;
  readonly causeNames: Readonly<Record<Cause, string>>;
  readonly startingWeight: number;
  readonly problems: FieldProblems;
  readonly onChange: (own: SharesDraft) => void;
}) {
  const { own, holds, causeNames, problems, onChange } = props;
  return (
    <fieldset>
      <legend>How often each cause is at work, before anything is seen</legend>
      <p className="second">
        In per cent of the cylinders of this model in which something is at work. Causes left blank share what is left,
        in proportion to the table. A share given here is a start, with the weight of {props.startingWeight}{" "}
        strip-downs; what strip-downs of this model found sharpens it. All left blank, the values in grey hold, with
        theirs counted already.
      </p>
      {problems["causeShares.shares"] !== undefined && (
        <p className="field-problem" role="alert">
          {problems["causeShares.shares"] === "Must name a cause."
            ? "Give at least one share, or clear the reason as well."
            : problems["causeShares.shares"]}
        </p>
      )}
      <div className="field-row">
        {causes.map((cause) => (
          <TextInput
            key={cause}
            name={`causeShares.shares.${cause}`}
            label={causeNames[cause]}
            placeholder={holds[cause]}
            inputMode="decimal"
            autoComplete="off"
            value={own.shares[cause]}
            error={problems[`causeShares.shares.${cause}`]}
            onChange={(event) => onChange({ ...own, shares: { ...own.shares, [cause]: event.currentTarget.value } })}
          />
        ))}
      </div>
      <Textarea
        name="causeShares.reason"
        label="Reason"
        description="Why this engine differs, for whoever reads it later."
        autosize
        minRows={2}
        value={own.reason}
        error={problems["causeShares.reason"]}
        onChange={(event) => onChange({ ...own, reason: event.currentTarget.value })}
      />
    </fieldset>
  );
}
