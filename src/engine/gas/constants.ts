/** Molar gas constant, J/(mol K). Source: CODATA 2018 (exact in the SI of 2019). */
export const MOLAR_GAS_CONSTANT = 8.314462618;
