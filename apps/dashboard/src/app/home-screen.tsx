import { useMe } from '../api/use-me.ts'
import { isBaySide } from '../api/permissions.ts'
import { MyWorkScreen } from '../screens/my-work/my-work-screen.tsx'
import { OverviewScreen } from '../screens/overview/overview-screen.tsx'

/** Where one comes in: a technician to the own work, everybody else to what needs attention. */
export function HomeScreen() {
  return isBaySide(useMe()) ? <MyWorkScreen /> : <OverviewScreen />
}
