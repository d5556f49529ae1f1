package reports

import (
	"testing"

	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// The papers that a family takes along, in Spanish: words of ours, drafts until a
// qualified translator has reviewed them. What the agency wrote, such as the names of
// skills and steps, stays as it was written.
func TestFamilyPapersInSpanish(t *testing.T) {
	f := certificateFacts(t, "Rosa Quintero")
	f.Language = "es"
	certified := drawnCertificate(t, "certificate-es", f)
	golden(t, "certificate-es", certified)
	says(t, certified, "Certificado de competencia", "madre", "para Mira, 7K", "3 demostraciones, todas bien hechas, en 3 días: 9 de noviembre de 2026, 12 de noviembre de 2026 y 18 de noviembre de 2026",
		"2 con el niño o la niña, 1 en simulación", "puntajes 95.5, 100, 94.9 %, nota mínima 95 %", "del 18 de noviembre de 2026 al 30 de noviembre de 2027", "se puede renovar desde el 1 de septiembre de 2027",
		"Certificado n.º 128", "licencia RN 48213", "«Observé y juzgué esto.»", "«Mostré esto y lo conversamos.»")
	saysNot(t, certified, "Certificate", "through", "score", "licence", "November", "Scan")

	recorded := drawn(t, "record-es", func() (*paper, error) { return record(circuitChange(t), wording.Spanish) })
	golden(t, "record-es", recorded)
	says(t, recorded, "Bien hecho el 18 de noviembre de 2026", "en casa, con el niño o la niña", "observó Ольга Мартин", "Se cumplieron todas las reglas.", "Puntaje 100 %, nota mínima 95 %.",
		"Sí, desde el 18 de noviembre de 2026, día de la última firma.", "sin ayuda", "no aplica", "Como se registró.")
	saysNot(t, recorded, "Competent", "observed", "independent", "Every rule", "not applicable", "licence")

	v := ofLucja(t)
	v.Standings.Person.Relation = "mother"
	listed := drawn(t, "transcript-es", func() (*paper, error) { return transcript(v, wording.Spanish) })
	golden(t, "transcript-es", listed)
	says(t, listed, "Al día en 2 de 3 habilidades exigidas el 15 de enero de 2027", "madre", "falta: una demostración bien hecha", "al día", "por renovar", "retirada", "en aprendizaje",
		"anulada: ya no cuenta", "práctica: no cuenta", "detenido por seguridad", "licencia RN CO-4471", "sin firmar", "El código dice si un certificado sigue vigente.")
	saysNot(t, listed, "Current", "needed", "Certificates", "licence", "not signed", "Nothing", "stopped")
	if english := drawn(t, "record-en", func() (*paper, error) { return record(circuitChange(t), wording.English) }); english == "" || office.MeaningObserver != "I observed and judged this." || office.MeaningLearner != "I showed this and we talked it over." {
		t.Error("what signatures mean is not what is known in Spanish")
	}
}
