import { crankingCaution, leakDownCaution, perhapsDieselCaution, testingCaution } from "../../lib/cause/cautions.ts";

/** What may hurt whoever makes the tests whose results are brought in. */
export const TestCautions = () => (
  <p className="caution">
    <strong>Before anyone tests.</strong> {leakDownCaution} {crankingCaution} {perhapsDieselCaution} {testingCaution}{" "}
    The maker’s manual, local rules and trained people decide.
  </p>
);
