/** How far plans look: a shop with more work than that plans again before it matters. */
export const HORIZON_DAYS = 28
