import { registerAll } from '@clampclock/messages/all'

// Pages fetch their words; what tests call of them has all at hand.
registerAll()
