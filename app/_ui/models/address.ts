import { fleetAddress, plainFleetView } from "../fleet/address.ts";

export const modelAddress = (model: string): string => `/models/${encodeURIComponent(model)}`;

export const modelEditAddress = (model: string): string => `${modelAddress(model)}/edit`;

/** What the model's findings say of the causes. */
export const modelEvidenceAddress = (model: string): string => `${modelAddress(model)}/evidence`;

/** The same after an import changed it. */
export const evidenceSavedAddress = (model: string, importId: string): string =>
  `${modelEvidenceAddress(model)}?saved=${encodeURIComponent(importId)}`;

/** The page of a model after an import changed it. */
export const modelSavedAddress = (model: string, importId: string): string =>
  `${modelAddress(model)}?saved=${encodeURIComponent(importId)}`;

/** The Fleet, units of this model alone. */
export const unitsOfModelAddress = (model: string): string => fleetAddress(plainFleetView, { model });
