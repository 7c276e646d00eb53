import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/my-work.ts'

export const patterns: Translation<typeof english> = {
  'my-work.underWay': 'Under way',
  'my-work.late': 'Late',
  'my-work.since': 'since {startsAt}',
  'my-work.waits': 'Waits: {waitsFor}',
  'my-work.startTheBond': 'Start the bond',
  'my-work.finished': 'Finished',
  'my-work.start': 'Start',
  'my-work.myWork': 'My work',
  'my-work.yourWork': 'your work',
  'my-work.onIt': 'On it',
  'my-work.toDoNow': 'To do now',
  'my-work.nextByThePlan': 'Next by the plan',
  'my-work.assignedToYou': 'Assigned to you',
  'my-work.nothingIsPlannedForYouInTheNextTwo': 'Nothing is planned for you in the next two days.',
  'my-work.repairOrders': 'Repair orders',
  'my-work.thePlanDoesNotKnowYouAsATechnician': 'The plan does not know you as a technician.',
  'my-work.anOwnerCanSayWhichTechnicianYouAre':
    'An owner can say which technician you are: Administration, Equipment, the technician, Person. What you bond is shown here all the same.',
}
