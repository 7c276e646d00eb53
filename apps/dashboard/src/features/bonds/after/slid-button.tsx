import { Button } from '@mantine/core'
import { MoveHorizontal } from 'lucide-react'
import { useRef } from 'react'
import { happenedNow } from '../../../api/client.ts'
import { isProblem } from '../../../api/problem.ts'
import type { Bond } from '../../../api/types.ts'
import { aboutBond } from '../../../api/acts/about-bond.ts'
import { useAct } from '../../../api/acts/use-act.ts'
import type { ActAbout } from '../../../api/acts/act.ts'
import { t } from '../../../lib/reader.ts'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { MovedLateDialog } from './moved-late-dialog.tsx'

interface Props {
  readonly bond: ActAbout & Pick<Bond, 'id'>
  /** Of a joint that is released: what it did all the same. */
  readonly label?: string
}

/** The panels were slid, not lifted: fine while the work time runs, and written down as of the press. */
export function SlidButton({ bond, label = t('start-bond.after.slid') }: Props) {
  const pressedAt = useRef<string>(undefined)
  const slide = useAct('slideBond', {
    about: aboutBond(bond),
    topics: ['bonds', 'repairs', 'alerts'],
    // What is pressed next is another one.
    onKept: () => {
      pressedAt.current = undefined
    },
    onDone: () => {
      pressedAt.current = undefined
      slide.reset()
    },
  })
  // Pressed again after silence it is the same act; after an answer it is another.
  const run = (more: { alreadyHappened?: true; reason?: string } = {}) => {
    pressedAt.current ??= happenedNow()
    slide.mutate({ params: { bondId: bond.id }, body: { at: pressedAt.current, ...more } })
  }
  const close = () => {
    pressedAt.current = undefined
    slide.reset()
  }
  const isLate = isProblem(slide.error, 'bond-refused')
  const isTelling = slide.variables?.body?.alreadyHappened === true
  return (
    <>
      <Button
        variant="default"
        leftSection={<MoveHorizontal size={18} aria-hidden />}
        loading={slide.isPending && !isTelling}
        onClick={() => run()}
      >
        {label}
      </Button>
      {isLate || isTelling ? (
        <MovedLateDialog
          isPending={slide.isPending}
          error={isLate ? null : slide.error}
          onConfirm={(reason) => run({ alreadyHappened: true, reason })}
          onClose={close}
        />
      ) : (
        slide.error !== null && <ProblemPanel error={slide.error} />
      )}
    </>
  )
}
