"use client";

import { Button, TextInput } from "@mantine/core";
import { useActionState } from "react";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { useServerForm } from "../use-server-form.client.ts";
import { type FreezeOutcome, freeze } from "./budget-actions.ts";

const nothing: FreezeOutcome = { name: "", problem: null, frozen: null };

/** Keeps today's budget as it stands under a name. */
export function FreezeForm({ budget }: { /** Number of the budget that is shown. */ readonly budget: number }) {
  const { answer, form, pending } = useServerForm(freeze, nothing, (before, typed, problem) => {
    const name = typed.get("name");
    return { ...before, name: typeof name === "string" ? name : "", problem };
  });
  return (
    <form {...form} className="budget-freeze no-print">
      <input type="hidden" name="budget" value={budget} />
      <TextInput
        key={`${answer.frozen} ${answer.name}`}
        name="name"
        label="Freeze this budget under a name"
        description="It stays as it is now; later budgets are told against it."
        defaultValue={answer.name}
        maxLength={longestName}
        error={answer.problem}
        required
        withAsterisk={false}
        autoComplete="off"
      />
      <Button type="submit" variant="default" loading={pending}>
        Freeze this budget
      </Button>
      <p role="status" className="second form-status">
        {answer.frozen === null ? "" : `Frozen as “${answer.frozen}”.`}
      </p>
    </form>
  );
}

/** Takes something off its list, after the person was told that it stays in the store. */
export function WithdrawForm(props: {
  readonly id: number;
  readonly name: string;
  readonly action: (before: string | null, form: FormData) => Promise<string | null>;
}) {
  const [problem, action, pending] = useActionState(props.action, null);
  return (
    <form action={action} className="no-print">
      <input type="hidden" name="id" value={props.id} />
      <Button
        type="submit"
        variant="default"
        size="compact-sm"
        loading={pending}
        aria-label={`Withdraw “${props.name}”`}
      >
        Withdraw
      </Button>
      {problem !== null && (
        <p role="alert" className="field-problem">
          {problem}
        </p>
      )}
    </form>
  );
}
