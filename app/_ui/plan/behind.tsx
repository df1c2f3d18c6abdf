import { LookAgain } from "../look-again.client.tsx";

/** What has changed since the plan was made, and when or how it is made anew; nothing where nothing has. */
export function Behind({
  since,
  made,
}: {
  readonly since: readonly string[];
  /** When it is made by itself; null: it is a person's, and stays until somebody replans. */
  readonly made: string | null;
}) {
  if (since.length === 0) return null;
  return (
    <p className="plan-behind">
      {since.join(" ")} {made ?? "The plan stays until it is made anew: Replan does that."}
      {made !== null && <LookAgain />}
    </p>
  );
}
