import { Button, Group, Modal, Stack, Textarea } from '@mantine/core'
import { useState } from 'react'
import type { Bond } from '../../../api/types.ts'
import { aboutBond } from '../../../api/acts/about-bond.ts'
import { useAct } from '../../../api/acts/use-act.ts'
import { t } from '../../../lib/reader.ts'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import styles from './after.module.css'
import { ScrapeAndStartAgain } from './scrape.tsx'

interface Props {
  readonly bond: Bond
  /** When it was said to be lifted: the press, and not the end of the writing. */
  readonly at: string
  readonly onClose: () => void
}

const REASONS = [
  'start-bond.after.why.fit',
  'start-bond.after.why.slipped',
  'start-bond.after.why.wrongPlace',
  'start-bond.after.why.dirt',
  'start-bond.after.why.bead',
  'start-bond.after.why.disturbed',
] as const

/** As long as a reason must be that stays on record. */
const SHORTEST = 5

/** The panels came apart: why, what to scrape, and on with the next attempt. */
export function LiftedDialog({ bond, at, onClose }: Props) {
  const [chosen, setChosen] = useState<readonly (typeof REASONS)[number][]>([])
  const [text, setText] = useState('')
  const [isKept, setKept] = useState(false)
  const abandon = useAct('abandonBond', {
    about: aboutBond(bond),
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onKept: () => setKept(true),
  })
  const close = () => {
    abandon.reset()
    onClose()
  }
  const reason = [...chosen.map((key) => t(key)), text.trim()].filter((part) => part !== '').join('; ')
  const isTold = abandon.isSuccess || isKept
  return (
    <Modal
      opened
      onClose={close}
      title={
        isTold
          ? t('start-bond.after.scrapeNow')
          : t('start-bond.after.liftedAt', { attempt: bond.attempt, jointName: bond.jointName })
      }
    >
      {isTold ? (
        <ScrapeAndStartAgain bond={bond} isKept={isKept} onClose={onClose} />
      ) : (
        <Stack gap="md">
          <p className={styles['plain']}>{t('start-bond.after.liftedRule')}</p>
          <fieldset className={styles['chips']}>
            <legend>{t('start-bond.after.why')}</legend>
            {REASONS.map((key) => {
              const isOn = chosen.includes(key)
              return (
                <Button
                  key={key}
                  size="md"
                  variant={isOn ? 'filled' : 'default'}
                  aria-pressed={isOn}
                  onClick={() => setChosen(isOn ? chosen.filter((other) => other !== key) : [...chosen, key])}
                >
                  {t(key)}
                </Button>
              )
            })}
          </fieldset>
          <Textarea
            label={t('start-bond.after.moreWords')}
            description={t('start-bond.after.chooseOrWrite')}
            maxLength={1500}
            autosize
            minRows={2}
            value={text}
            onChange={(event) => setText(event.currentTarget.value)}
          />
          <ProblemPanel error={abandon.error} />
          <Group justify="flex-end">
            <Button variant="default" size="md" onClick={close}>
              {t('ui.back')}
            </Button>
            <Button
              color="red"
              size="md"
              loading={abandon.isPending}
              disabled={reason.length < SHORTEST}
              onClick={() =>
                abandon.mutate({ params: { bondId: bond.id }, body: { at, reason, wasLifted: true } })
              }
            >
              {t('start-bond.after.recordThatItWasLifted')}
            </Button>
          </Group>
        </Stack>
      )}
    </Modal>
  )
}
