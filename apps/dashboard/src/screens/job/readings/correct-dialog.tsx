import { formatTemperature } from '../../../lib/measures.ts'
import { ROUTES } from '../../../api/contracts.ts'
import { useState } from 'react'
import type { Bond } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { confirmedOf, meantC, questionsOf } from '../../../features/readings/questions.ts'
import { ReadingQuestion } from '../../../features/readings/reading-question.tsx'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { TemperatureInput } from '../../../ui/fields/temperature-input.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly reading: Bond['measurements'][number]
  readonly unit: 'C' | 'F'
  readonly onClose: () => void
}

/** Puts another value in the place of a reading: both stay on record. */
export function CorrectDialog({ reading, unit, onClose }: Props) {
  const [temperatureC, setTemperatureC] = useState<number>()
  const [written, setWritten] = useState('')
  const correct = useAction(ROUTES.correctPanelReading, {
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
  })
  const questions = questionsOf(correct.error)
  const send = (reason: string, confirmed: ReturnType<typeof confirmedOf>) => {
    if (temperatureC === undefined) return
    setWritten(reason)
    correct.mutate({ params: { readingId: reading.id }, body: { temperatureC, reason, confirmed } })
  }
  const change = (valueC: number | undefined) => {
    if (questions.length > 0) correct.reset()
    setTemperatureC(valueC)
  }
  return (
    <ReasonDialog
      title={t('job.correctTheReadingOf', { temperatureC: formatTemperature(reading.temperatureC, unit) })}
      opened
      onClose={onClose}
      reasonLabel={t('job.whatWasWrong')}
      confirmLabel={t('job.correct')}
      isPending={correct.isPending}
      error={questions.length > 0 ? null : correct.error}
      onConfirm={(reason) => send(reason, [])}
    >
      <TemperatureInput
        label={t('job.itWas')}
        unit={unit}
        valueC={temperatureC}
        onChangeC={change}
        required
      />
      <p>{t('job.enteredHalfAnHourOrMoreAfterItWas')}</p>
      <ReadingQuestion
        questions={questions}
        unit={unit}
        meantC={meantC(questions, temperatureC, unit)}
        isPending={correct.isPending}
        onMeant={change}
        onConfirm={() => send(written, confirmedOf(questions))}
      />
    </ReasonDialog>
  )
}
