import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import { LookAgain } from "./look-again.client.tsx";

/** Before a forecast can be judged, or while the record is made for the first time. */
export function NoRecord({ isMaking }: { readonly isMaking: boolean }) {
  return (
    <div className="page">
      {isMaking && <LookAgain />}
      <h1 className="finding">{isMaking ? "The track record is being made." : "No forecast can be judged yet."}</h1>
      <Sheet label="What is needed">
        <EmptyState
          says={
            isMaking
              ? "Each past test is gone back to, and forecast with only what was known then. The page shows it when it is there."
              : "A forecast takes three tests of a cylinder, and a later one shows how it turned out: four tests of one engine."
          }
        >
          <AppLink href={isMaking ? "/record" : "/import"} variant="filled">
            {isMaking ? "Look again" : "Import test results"}
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}
