/** The part of this module's face that a planning thread may load: it opens no database. */

export { refusalReason } from './ovens/bake-sentences.ts'
