package wording_test

import (
	"strings"
	"testing"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// each checks a reader of one word against lists of texts; the empty value is a
// text that is refused.
func each[T ~string](t *testing.T, read func(string) (T, bool), lists map[T]string) {
	t.Helper()
	for want, texts := range lists {
		for _, text := range strings.Split(texts, "|") {
			for _, form := range []string{text, strings.ToUpper(text), strings.ReplaceAll(text, " ", "_")} {
				if got, ok := read(form); got != want || ok != (want != "") {
					t.Errorf("%q: got %q, %v, want %q", form, got, ok, want)
				}
			}
		}
	}
}

func TestKind(t *testing.T) {
	each(t, wording.Kind, map[record.Kind]string{
		record.Scissor: "scissor|Scissor lift|electric scissor lift 10 m|scissors|Schere|Scherenbühne|Scherenbuehne|Scherenarbeitsbühne|Elektro-Scherenbühne|nacelle ciseaux|plate-forme à ciseaux|plataforma de tijera|piattaforma a forbice|pantografo",
		record.Boom:    "boom|boom lift|articulated boom|articulating boom|telescopic boom|Gelenkteleskopbühne|Gelenkbühne|Teleskopbühne|Gelenk-Teleskop|nacelle articulée|nacelle télescopique|plataforma articulada|brazo telescópico|piattaforma articolata|piattaforma telescopica|braccio articolato",
		record.Mast:    "mast|mast lift|vertical mast|Mastbühne|Mastbuehne|Vertikalmast|Vertikallift|nacelle à mât vertical|mât vertical|mástil vertical|vertical personnel lift",
		record.Other:   "other|Sonstige|autre|otro|altro",
		"":             "|Master|Teleskopmast|scissor boom|lift|12|foo|another",
	})
}

func TestHolder(t *testing.T) {
	each(t, wording.Holder, map[record.Holder]string{
		record.Hire:     "hire|hired|on hire|On hire to customer|rental|rented out|Miete|vermietet|in Miete|location|en location|loué|alquiler|alquilado|noleggio|a noleggio|customer site|Kunde|chantier",
		record.Transit:  "transit|in transit|transport|haulage|delivery|Spedition|Transport|Überführung|Ueberfuehrung|unterwegs|livraison|transporte|trasporto|consegna",
		record.Depot:    "depot|yard|Lager|Hof|dépôt|almacén|deposito|off hire|hire depot|Mietpark|magazzino|disponible",
		record.Workshop: "workshop|service|repair|Werkstatt|Zentralwerkstatt|atelier|taller|officina|Wartung|entretien|manutenzione",
		"":              "|foo|hire and transport|Werkstatt oder Lager|lost|12",
	})
}

func TestEventKind(t *testing.T) {
	each(t, wording.EventKind, map[record.EventKind]string{
		record.OverloadAlarm: "overload|overload alarm|Overload alarm on|Überlast|Überlastalarm|Ueberlastalarm|Überlast-Alarm|alarme surcharge|surcharge|sobrecarga|alarma de sobrecarga|sovraccarico|allarme sovraccarico",
		record.TiltAlarm:     "tilt|tilt alarm|Neigung|Neigungsalarm|Schräglage|Schraeglage|alarme de dévers|inclinaison|inclinación|alarma de inclinación|inclinazione",
		record.PowerOn:       "power on|switched on|key on|on|Ein|Eingeschaltet|Zündung ein|Zuendung ein|mise sous tension|mise en marche|encendido|arranque|accensione",
		record.PowerOff:      "power off|switched off|key off|off|Aus|ausgeschaltet|mise hors tension|arrêt|apagado|spegnimento|spento",
		record.PeakRise:      "peak rise|new peak|peak|neue Höchstlast|neue Hoechstlast|Spitzenwert|nouveau pic|nuevo pico|nuovo picco",
		"":                   "|foo|overload alarm cleared|Überlastalarm beendet|fin de surcharge|peak reset|tilt and overload|low battery|ongoing",
	})
}

// The names of the case file are read as themselves.
func TestCaseFileNamesAreRead(t *testing.T) {
	for _, k := range record.Kinds {
		each(t, wording.Kind, map[record.Kind]string{k: string(k)})
	}
	for _, h := range record.Holders {
		each(t, wording.Holder, map[record.Holder]string{h: string(h)})
	}
	for _, e := range record.EventKinds {
		each(t, wording.EventKind, map[record.EventKind]string{e: string(e)})
	}
}
