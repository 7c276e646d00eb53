/** J/(mol K). Exact since 2019 (SI brochure). */
export const GAS_CONSTANT = 8.314462618
