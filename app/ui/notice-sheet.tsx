import { NOTICE_ELEMENTS, type Notice, type NoticeElement } from '@/lib/domain/water/notice'

const HEADINGS: Record<NoticeElement, string> = {
  found: 'What was found',
  when: 'When',
  effects: 'What it can do to you',
  atRisk: 'Who is most at risk',
  otherWater: 'Which water to use',
  whatToDo: 'What to do',
  doing: 'What we do about it',
  until: 'How long this holds',
  contact: 'Whom to call',
  passOn: 'Pass it on',
}

/** A notice to a household in large type, with all ten things it must say. */
export function NoticeSheet({
  notice,
  well,
}: {
  notice: Exclude<Notice, { kind: 'cannot-say' }>
  well: string
}) {
  return (
    <article className="notice stack-tight">
      <p>{well}</p>
      <h2>{notice.title}</h2>
      <p className="notice-lead">{notice.lead}</p>
      {NOTICE_ELEMENTS.map((element) => (
        <section key={element}>
          <h3>{HEADINGS[element]}</h3>
          <p>{notice.elements[element]}</p>
        </section>
      ))}
    </article>
  )
}
