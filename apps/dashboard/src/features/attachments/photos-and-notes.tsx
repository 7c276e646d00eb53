import { lazily } from '../../ui/lazily.tsx'
import { Section } from '../../ui/page.tsx'
import { loadWords, t } from '../../lib/reader.ts'
import type { Subject } from './subject.ts'

interface Props {
  readonly repairOrderId: string
  readonly shopId: string
  readonly subjects: readonly Subject[]
}

/** As high as it is with nothing in it, so that what stands below does not jump. */
const Placeholder = () => <div style={{ minHeight: '18rem' }} />

const Attachments = lazily(async () => {
  const [module] = await Promise.all([import('./attachments.tsx'), loadWords(['attachments'])])
  return module.Attachments
}, Placeholder)

/** What was photographed and written down of these; its code comes by itself, after what the page is about. */
export function PhotosAndNotes(props: Props) {
  return (
    <Section title={t('features.photosAndNotes')}>
      <Attachments {...props} />
    </Section>
  )
}
