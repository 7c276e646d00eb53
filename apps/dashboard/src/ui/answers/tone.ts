/** What something means to a person; each tone has a colour, an icon and words of its own. */
export type Tone = 'danger' | 'warning' | 'ready' | 'curing' | 'quiet'
