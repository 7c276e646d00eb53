/**
 * Left after a cure before anybody moves the panel. The forecast changes a little with each reading; without it every
 * second plan would be a minute too early by the next. Common practice, no source.
 */
export const SPARE_MINUTES = 10
