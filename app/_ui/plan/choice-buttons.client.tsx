"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import type { Choice } from "../../../lib/plan/amended.ts";
import { askServer } from "../ask-server.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { choose, type SeenPlan } from "./plan-actions.ts";

interface Wish {
  readonly chosen: readonly Choice[];
  readonly label: string;
}

/** What a person may do with the chosen booking. */
export function ChoiceButtons(props: {
  readonly unit: string;
  readonly seen: SeenPlan;
  /** Where the page stands once it is done. */
  readonly back: string;
  readonly take: Wish | null;
  readonly pin: Wish | null;
  readonly release: Wish | null;
  readonly drop: Wish | null;
}) {
  const router = useRouter();
  const [problem, setProblem] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  const does = (wish: Wish) =>
    startTransition(async () => {
      const refused = await askServer(
        () => choose(props.unit, wish.chosen, props.seen),
        (why) => why,
      );
      setProblem(refused);
      if (refused === null) router.replace(props.back, { scroll: false });
      // What it was refused for is to be seen.
      else router.refresh();
    });
  const button = (wish: Wish | null, variant: "filled" | "default") =>
    wish !== null && (
      <Button variant={variant} loading={pending} onClick={() => does(wish)}>
        {wish.label}
      </Button>
    );
  return (
    <div className="plan-buttons">
      {button(props.take, "filled")}
      {button(props.pin, "default")}
      {button(props.drop, "default")}
      {button(props.release, "default")}
      {problem !== null && <ErrorNote happened={problem} kept="The plan stands as it was." />}
    </div>
  );
}
