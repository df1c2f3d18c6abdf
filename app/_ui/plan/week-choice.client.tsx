"use client";

import { NativeSelect } from "@mantine/core";
import { useRouter } from "next/navigation";
import { type PlanView, planAddress } from "./address.ts";

/** Another week for the chosen repair: its cost is told before it is taken. */
export function WeekChoice(props: {
  readonly view: PlanView;
  readonly at: string | null;
  readonly weeks: readonly { readonly monday: string; readonly says: string }[];
}) {
  const router = useRouter();
  const isKnown = props.weeks.some(({ monday }) => monday === props.at);
  return (
    <NativeSelect
      label="Look at another week"
      description="more than in its cheapest week, room or no room"
      value={isKnown ? (props.at ?? "") : ""}
      onChange={(event) => {
        const to = event.currentTarget.value;
        router.replace(planAddress({ ...props.view, to: to === "" ? null : to }), { scroll: false });
      }}
      data={[
        ...(isKnown ? [] : [{ value: "", label: "choose a week" }]),
        ...props.weeks.map(({ monday, says }) => ({ value: monday, label: says })),
      ]}
    />
  );
}
