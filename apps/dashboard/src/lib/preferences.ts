export { readerFrom } from '@clampclock/messages'
