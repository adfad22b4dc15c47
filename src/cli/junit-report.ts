/**
 * JUnit's XML as build servers read it: one suite a note, one case a finding. A finding that fails the check is a failure,
 * what could not be read is an error, an accepted finding is skipped with its reason.
 */
import { UNSEEN } from '../render/terminal-safe.ts';
import type { DiagnosticReport } from '../service/index.ts';
import type { ReportedFile, Reporter, ReporterOptions } from './reporter.ts';

interface Case {
  readonly name: string;
  readonly kind: 'passed' | 'failure' | 'error' | 'skipped';
  /** Elements inside it. */
  readonly inner: string;
}

export class JunitReporter implements Reporter {
  constructor(private readonly options: ReporterOptions) {}

  begin(): string {
    return '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="meniscus">\n';
  }

  file({ path, report }: ReportedFile): string {
    const cases: Case[] = [
      ...report.diagnostics.map((finding) => this.found(path, finding)),
      ...report.accepted.map(
        (finding): Case => ({
          name: nameOf(finding),
          kind: 'skipped',
          inner: `<skipped message="${xml(`accepted because ‘${finding.reason}’: ${finding.message}`)}"/>`,
        }),
      ),
    ];
    return suite(path, cases.length > 0 ? cases : [{ name: 'nothing found', kind: 'passed', inner: '' }]);
  }

  refused(reason: string): string {
    return suite('not read', [{ name: reason, kind: 'error', inner: `<error message="${xml(reason)}"/>` }]);
  }

  end(): string {
    return '</testsuites>\n';
  }

  private found(path: string, finding: DiagnosticReport): Case {
    const { severity, code, message, range } = finding;
    const place = `${path}:${range.start.line + 1}:${range.start.character + 1}`;
    const text = xml(`${place}  ${severity}  ${code}\n${message}`);
    const name = nameOf(finding);
    if (severity === 'error' || severity === this.options.failOn) {
      const inner = `<failure type="${xml(code)}" message="${xml(message)}">${text}</failure>`;
      return { name, kind: 'failure', inner };
    }
    return { name, kind: 'passed', inner: `<system-out>${text}</system-out>` };
  }
}

function nameOf({ code, range }: DiagnosticReport): string {
  return `line ${range.start.line + 1}: ${code}`;
}

function suite(name: string, cases: readonly Case[]): string {
  const count = (kind: Case['kind']) => cases.filter((one) => one.kind === kind).length;
  const counts = `tests="${cases.length}" failures="${count('failure')}" errors="${count('error')}" skipped="${count('skipped')}"`;
  const lines = cases.map((one) => {
    const opening = `<testcase classname="${xml(name)}" name="${xml(one.name)}"`;
    return `    ${one.inner ? `${opening}>${one.inner}</testcase>` : `${opening}/>`}\n`;
  });
  return `  <testsuite name="${xml(name)}" ${counts}>\n${lines.join('')}  </testsuite>\n`;
}

/**
 * Text for an element or an attribute of XML 1.0, which knows no control characters but three: the others become their
 * pictures (Unicode, Control Pictures), and what is no character at all becomes U+FFFD. What is not seen is written as its
 * number, so that a terminal does not obey it.
 */
function xml(text: string): string {
  return text
    .replace(/[\x00-\x08\x0B\x0C\x0E-\x1F]/g, (control) => String.fromCharCode(0x2400 + control.charCodeAt(0)))
    .replace(/[\uD800-\uDFFF\uFFFE\uFFFF]/gu, '\uFFFD')
    .replace(/[<>&"'\t\n\r]/g, (mark) => `&#${mark.charCodeAt(0)};`)
    .replace(UNSEEN, (unseen) => `&#${unseen.codePointAt(0)};`);
}
