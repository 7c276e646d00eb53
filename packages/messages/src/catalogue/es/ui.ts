import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/ui.ts'

export const patterns: Translation<typeof english> = {
  'ui.tryAgain': 'Try again',
  'ui.notDoneYetSomethingFilledInNeeds': 'Not done yet: something filled in needs another look.',
  'ui.loading': 'Loading {what}…',
  'ui.thisPartCouldNotBeLoadedThereIsNo':
    'This part could not be loaded: there is no network, or the service has a newer version. Once the network is back, load the page again.',
  'ui.loadThePageAgain': 'Load the page again',
  'ui.atLeast5CharactersStaysOnRecordFor': 'At least 5 characters; stays on record for ever.',
  'ui.back': 'Back',
  'ui.percentSurePercentExpected': '{sure} percent sure, {likely} percent expected',
  'ui.sure': '{sure} % sure',
  'ui.expected': '{likely} % expected',
  'ui.filters': 'Filters',
  'ui.showMore': 'Show more',
  'ui.leaveWithoutSaving': 'Leave without saving?',
  'ui.whatYouChangedHereHasNotBeenSaved': 'What you changed here has not been saved.',
  'ui.leaveAndDropTheChanges': 'Leave, and drop the changes',
  'ui.stay': 'Stay',
  'ui.earlier': 'Earlier',
  'ui.today': 'Today',
  'ui.later': 'Later',
  'ui.firstDay': 'First day',
  'ui.unit': 'Unit',
}
