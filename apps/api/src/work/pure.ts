/** The part of this module's face that a planning thread may load: it opens no database. */

export { heldReason } from './joints/standing-sentences.ts'
