import { AircraftLine } from "../unit/unit-cautions.tsx";

/** The maker's manual goes before all that is written down of a model; for aircraft, approved data. */
export function MakerFirst({ aircraft }: { readonly aircraft: boolean }) {
  return (
    <>
      <p className="caution">
        The maker’s manual goes before all that stands here: take limits, spread and tester from it, and change them
        when it does.
      </p>
      {aircraft && <AircraftLine />}
    </>
  );
}
