"use client";

import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import { askServer } from "../ask-server.client.ts";
import { AskFirst } from "../asking/ask-first.client.tsx";
import { ErrorNote } from "../error-note.tsx";
import { withdrawKeptLayout } from "./kept-actions.ts";
import { nothingKept } from "./kept-outcome.ts";

/** Withdraws a layout after saying what that does. */
export function WithdrawForm({ name }: { readonly name: string }) {
  const router = useRouter();
  const [problem, setProblem] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  const withdraw = () =>
    startTransition(async () => {
      const answer = await askServer(
        () => withdrawKeptLayout(name),
        (why) => ({ ...nothingKept, problem: why }),
      );
      setProblem(answer.problem);
      router.refresh();
      document.getElementById("main")?.focus();
    });
  return (
    <>
      {problem !== null && <ErrorNote happened={problem} kept="Nothing was changed." />}
      <AskFirst
        button="Withdraw it"
        question={`Withdraw ${name}?`}
        yes="Withdraw it"
        no="Leave it"
        pending={pending}
        onYes={withdraw}
      >
        Files are not recognised by it any more; they are read as their headings tell, or asked about. What was read by
        it stays. It is listed apart, and can be put back.
      </AskFirst>
    </>
  );
}
