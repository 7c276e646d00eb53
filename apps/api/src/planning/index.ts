/** What is to be done where, when and by whom. What follows is all that other modules may call. */

export { keepBayBooked, keepBaysForCures } from './bookings/keep-bay.ts'
export { cureWarnings } from './plans/watch-cures.ts'
export { clip, union, type Interval } from './problem/intervals.ts'
export { resourceTime } from './problem/resource-time.ts'
