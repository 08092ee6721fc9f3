package wording_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/wording"
)

// meanings writes what a heading can mean for a comparison.
func meanings(heading string) string {
	fields, _ := wording.Fields(heading)
	return strings.Trim(fmt.Sprint(fields), "[]")
}

func TestFields(t *testing.T) {
	for want, headings := range map[string]string{
		"machine":                                "Machine|Machine ID|Serial No.|Serial number|Fleet no|Asset ID|S/N|Maschine|Maschinen-Nr.|Gerätenummer|Geraetenummer|GERÄTENUMMER|Seriennummer|Serien-Nr.|N° de série|Nº de serie|No de série|Numéro de série|Engin|Máquina|Número de serie|Macchina|Matricola|Numero di serie|machine_id|machineId|The machine",
		"kind":                                   "Machine type|Kind of machine|Maschinenart|Bauart|Type de machine|Tipo de máquina|Tipo di macchina",
		"rated_load_kg":                          "Rated load|Rated load [kg]|rated_load_kg|RatedLoadKg|SWL|S.W.L.|SWL (kg)|Safe working load|Capacity (lbs)|Rated capacity / kg|Nennlast|Nennlast in kg|Tragfähigkeit|Tragfaehigkeit [kg]|zulässige Last|Zul. Last (kg)|Charge nominale (kg)|Capacité|CMU|Carga nominal|Capacidad [kg]|Portata (kg)|Carico nominale|Rated load (SWL) kg",
		"persons":                                "Persons|No. of persons|Number of persons|Person(s)|Personen|Anzahl Personen|Nombre de personnes|Número de personas|Numero di persone",
		"load_sensing_kg":                        "Load sensing|Overload threshold (kg)|Überlastgrenze|Ueberlastgrenze [kg]|Seuil de surcharge|Umbral de sobrecarga|Soglia di sovraccarico",
		"mass_kg":                                "Machine mass|Machine weight [t]|Eigengewicht|Poids à vide (kg)|Peso propio|Massa|mass_kg",
		"in_service":                             "In service since|Inbetriebnahme|Date de mise en service|Puesta en servicio|Messa in servizio|in_service",
		"reading_at":                             "reading_at|Time of reading|Zeitpunkt der Ablesung|Date et heure du relevé|Fecha y hora de lectura",
		"reading_at event_at":                    "Timestamp|Date and time|Date/Time|Datum und Uhrzeit|Date et heure|Fecha y hora|Data e ora",
		"reading_date":                           "Reading date|Ablesedatum|Date de relevé",
		"reading_time":                           "Reading time|Ablesezeit|Heure de lecture|Hora de lectura|Ora di lettura",
		"powered_h":                              "Powered hours|powered_h|Powered [min]|Powered minutes|Hour meter|Hour-meter (h)|Hourmeter|Operating hours|Engine hours|Total hours|Betriebsstunden|Betriebsstunden / h|Betriebsstundenzähler [h]|BETRIEBSSTUNDEN|Heures de fonctionnement|Horamètre|Compteur horaire (h)|Horas de funcionamiento|Horómetro|Ore di funzionamento|Contaore|Engine hours [h:mm]",
		"moving_h":                               "Moving hours|moving_h|Moving time (min)|Travel hours|Fahrstunden|Bewegungszeit [h]|Heures de mouvement|Horas de movimiento|Ore di movimento",
		"peak_kg":                                "Peak|Peak load (lbs)|peak_kg|PeakLoad|Highest load|Höchstlast|Hoechstlast [kg]|Spitzenlast|Pic de charge|Carga pico|Picco di carico|Peak (kg)|Max. recorded load, kg",
		"rated_load_kg peak_kg":                  "Max. load|Maximum load (kg)|Max. Last|Charge maximale|Carga máxima (kg)|Carico massimo",
		"peak_at":                                "Peak at|peak_at|Time of peak|Max load on|Highest load at|Höchste Last am|Zeitpunkt der Spitze|Date du pic|Fecha del pico|Data del picco",
		"band":                                   "Band|Load band [kg]|Load range|Lastbereich (kg)|Lastklasse|Plage de charge|Rango de carga|Fascia di carico",
		"band event_load_kg":                     "Load|Load [lb]|Last in kg|Charge (kg)|Carga|Carico",
		"from_kg":                                "from_kg|From (kg)|From [lb]|From %|Load from|Von [kg]|Untergrenze|Limite inférieure (kg)|Desde (kg)|Da (kg)|Load min|Min. load (kg)|kg from",
		"from_kg custody_from":                   "From|Von|De|Desde|Da|ab|À partir de",
		"to_kg":                                  "to_kg|To (kg)|Load to|Bis [kg]|Obergrenze|Limite supérieure (kg)|Hasta (kg)|A (kg)|Load max|Up to",
		"to_kg custody_to":                       "To|Bis|À|Hasta|A",
		"to_kg peak_kg":                          "Max|Maximum",
		"hours":                                  "Hours in band|Time in band [min]|Time [min]|Time, min|Zeit (h)|h|Hours at load|Stunden im Band|Verweildauer|Durée|Duración (h)|Ore nella fascia",
		"hours powered_h":                        "Hours|Hours (h)|Stunden|Heures|Horas|Ore|Stunden / Hours",
		"share":                                  "Share|Share %|%|Percent|% of powered time|% of time|Hours [%]|Stunden %|Anteil|Anteil in %|Prozent|Pourcentage|Porcentaje|Percentuale",
		"custody_from":                           "custody_from|On hire from|Hire start|Start date|Mietbeginn|Date de début|Fecha de inicio|Data inizio",
		"custody_to":                             "custody_to|Off hire|End date|Mietende|Date de fin|Fecha de fin|Data fine",
		"holder":                                 "Holder|Status|Location|Verbleib|Standort|Emplacement|Ubicación|Ubicazione",
		"who":                                    "Who|Customer|Hired by|Kunde|Mieter|Client|Locataire|Cliente|Kunde / Customer",
		"note":                                   "Note|Notes|Remarks|Bemerkung|Commentaire|Observaciones|Osservazioni",
		"event_at":                               "event_at|Event time|Ereigniszeit|Heure de l'événement|Fecha del evento|Data evento",
		"event_kind":                             "Event|Alarm|Alarm type|Ereignisart|Type d'événement|Tipo de evento|Allarme",
		"kind event_kind":                        "Type|Kind|Typ|Art|Tipo",
		"event_load_kg":                          "event_load_kg|Load at event|Last bei Alarm (kg)",
		"daily_date":                             "daily_date|Day|Tag|Jour|Día|Giorno",
		"mass_kg event_load_kg":                  "Weight (kg)|Gewicht|Poids|Peso",
		"reading_at powered_h":                   "Reading|Ablesung|Lectura",
		"reading_time reading_at":                "Readout time",
		"reading_at reading_date":                "Date of reading|Abgelesen am",
		"reading_time reading_at hours event_at": "Time|Zeit",
		"reading_time reading_at event_at":       "Uhrzeit|Heure|Hora|Ora",
		"reading_at reading_date daily_date event_at": "Date|Datum|Fecha|Data|Datum (TT.MM.JJJJ)|Date (dd/mm/yyyy)|Datum / Date",
		"": "|foo|Total|kg|Colour|Battery voltage|Load [h]|Date [kg]|Persons (kg)|90-180 kg|Hours 90-180 kg|Oil temperature|Operator",
	} {
		for _, heading := range strings.Split(headings, "|") {
			if got := meanings(heading); got != want {
				t.Errorf("%q: got [%s], want [%s]", heading, got, want)
			}
		}
	}
}

func TestFieldUnits(t *testing.T) {
	for heading, want := range map[string]wording.Unit{
		"Load [lb]": lb, "Nennlast in t": tn, "Powered minutes": mins, "Powered hours": hour, "Heure": none, "Date et heure": none, "Hours [%]": pct, "% of powered time": pct, "Share of hours": none, "Engine hours [h:mm]": hmm, "Peak": none, "peak_kg": kg, "Stunden / Hours": hour,
	} {
		if _, got := wording.Fields(heading); got != want {
			t.Errorf("%q: got %q, want %q", heading, got, want)
		}
	}
}

// Every phrase of the table is found as it stands, in capitals, with
// underscores, run together, with accents dropped and with umlauts spelled out.
func TestEveryFieldWordIsFound(t *testing.T) {
	spell := strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss")
	bare := strings.NewReplacer("ä", "a", "ö", "o", "ü", "u", "ß", "ss", "é", "e", "è", "e", "ê", "e", "à", "a", "á", "a", "í", "i", "ó", "o", "ú", "u", "ñ", "n", "ì", "i", "ò", "o", "ù", "u", "ç", "c", "û", "u", "â", "a")
	wording.EachFieldWord(func(f wording.Field, language, phrase string) {
		for _, form := range []string{phrase, strings.ToUpper(phrase), strings.ReplaceAll(phrase, " ", "_"), spell.Replace(phrase), bare.Replace(phrase), " " + phrase + ": ", phrase + " (x)"} {
			if fields, _ := wording.Fields(form); !slices.Contains(fields, f) {
				t.Errorf("%s, %s: %q: got %v, want it among them", f, language, form, fields)
			}
		}
	})
}

// together are the sets of meanings that one phrase may have. Any other phrase
// with more than one is a mistake in the table: no heading means two unrelated
// things unseen.
var together = map[string]string{
	"band event_load_kg":                          "carga|carico|charge|last|load",
	"from_kg custody_from":                        "ab|da|de|desde|from|von|à partir de",
	"hours powered_h":                             "heures|horas|hours|ore|stunden",
	"kind event_kind":                             "art|genre|kind|tipo|typ|type",
	"mass_kg event_load_kg":                       "gewicht|peso|poids|weight",
	"rated_load_kg peak_kg":                       "carga max|carga máxima|carico massimo|carico max|charge max|charge maximale|max last|max load|max platform load|maximale last|maximallast|maximum load|maximum platform load",
	"reading_at event_at":                         "data e ora|data ora|date and time|date et heure|date heure|date time|datum uhrzeit|datum und uhrzeit|datum zeit|fecha hora|fecha y hora|horodatage|logged at|marca de tiempo|marca temporale|time stamp|timestamp|when|zeitpunkt|zeitstempel",
	"reading_at powered_h":                        "ablesung|lectura|lecture|lettura|reading|relevé",
	"reading_at reading_date":                     "abgelesen am|data di lettura|data lettura|date de lecture|date du relevé|date of reading|fecha de lectura|read on|relevé le",
	"reading_at reading_date daily_date event_at": "data|date|datum|fecha",
	"reading_time reading_at":                     "readout time",
	"reading_time reading_at event_at":            "heure|hora|ora|uhrzeit",
	"reading_time reading_at hours event_at":      "time|zeit",
	"to_kg custody_to":                            "a|bis|hasta|jusqu'à|to|à",
	"to_kg peak_kg":                               "massimo|max|maximum|máximo",
}

func TestWordsWithSeveralMeanings(t *testing.T) {
	got := map[string][]string{}
	wording.EachFieldWord(func(_ wording.Field, _, phrase string) {
		if m := meanings(phrase); strings.Contains(m, " ") && !slices.Contains(got[m], phrase) {
			got[m] = append(got[m], phrase)
		}
	})
	for m, phrases := range got {
		slices.Sort(phrases)
		if list := strings.Join(phrases, "|"); list != together[m] {
			t.Errorf("[%s]: got %q, want %q", m, list, together[m])
		}
	}
	if len(got) != len(together) {
		t.Errorf("got %d sets of meanings, want %d", len(got), len(together))
	}
}

// What a caller does to its list changes nothing for the next one.
func TestFieldsAreTheCallers(t *testing.T) {
	for _, heading := range []string{"Hours", "Date", "Peak", "Stunden / Hours"} {
		first := meanings(heading)
		fields, _ := wording.Fields(heading)
		for i := range fields {
			fields[i] = "x"
		}
		if got := meanings(heading); got != first {
			t.Errorf("%q: got [%s], want [%s]", heading, got, first)
		}
	}
}

func BenchmarkFields(b *testing.B) {
	for b.Loop() {
		wording.Fields("Betriebsstunden / h")
	}
}

func FuzzFields(f *testing.F) {
	for _, s := range []string{"Peak [kg]", "Hours (h)", "% of powered time", "Datum / Date", "N° de série", "Charge de", "Person(s)", "Scherenbühne", "off hire", "overload alarm cleared", "((", "]["} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		fields, unit := wording.Fields(s)
		for i, field := range fields {
			if field == "" || slices.Contains(fields[:i], field) {
				t.Fatalf("%q: got %v, want each meaning once", s, fields)
			}
		}
		if unit > pct {
			t.Fatalf("%q: got unit %d", s, unit)
		}
		if k, ok := wording.Kind(s); ok != (k != "") {
			t.Fatalf("%q: got %q, %v", s, k, ok)
		}
		if h, ok := wording.Holder(s); ok != (h != "") {
			t.Fatalf("%q: got %q, %v", s, h, ok)
		}
		if e, ok := wording.EventKind(s); ok != (e != "") {
			t.Fatalf("%q: got %q, %v", s, e, ok)
		}
	})
}
