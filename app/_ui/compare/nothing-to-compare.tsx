import type { ComponentProps } from "react";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import { CompareNav } from "./compare-nav.tsx";

/** Before the first test is in. */
export function NothingToCompare({ here }: ComponentProps<typeof CompareNav>) {
  return (
    <div className="page">
      <div>
        <CompareNav here={here} />
        <h1 className="finding">Nothing to compare yet.</h1>
      </div>
      <Sheet label="What is needed">
        <EmptyState says="Units are compared by their tests. Two tests of a unit give a line, five engines of one model a band, three tests a rate.">
          <AppLink href="/import" variant="filled">
            Import test results
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}
