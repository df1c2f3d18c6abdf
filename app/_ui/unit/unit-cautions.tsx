import { testingCaution } from "@/lib/cause/cautions.ts";
import type { UnitReport } from "@/lib/schema/report.ts";

/** What may hurt at the steps that come next, and who decides. Nothing where no step is told. */
export function UnitCautions({ report }: { readonly report: UnitReport }) {
  const cautions = report.next.flatMap(({ caution }) => (caution === null ? [] : [caution]));
  return (
    <>
      {cautions.length > 0 && (
        <p className="caution">
          <strong>Caution.</strong> {cautions.join(" ")} {testingCaution} The maker’s manual and local rules go before
          all of this.
        </p>
      )}
      {report.model.aircraft && <AircraftLine />}
    </>
  );
}

/** Stands on every page of an aircraft engine. */
export function AircraftLine() {
  return (
    <p className="caution">
      <strong>Aircraft engine.</strong> Approved data and a licensed engineer decide. This page only records and plans.
    </p>
  );
}
