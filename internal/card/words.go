package card

import "strings"

// Lang is a language of the page.
type Lang string

// The languages.
const (
	English Lang = "en"
	German  Lang = "de"
	French  Lang = "fr"
	Spanish Lang = "es"
)

// Langs lists the languages with their own names.
var Langs = []struct {
	Lang Lang
	Name string
}{{English, "English"}, {German, "Deutsch"}, {French, "Fran\u00e7ais"}, {Spanish, "Espa\u00f1ol"}}

// LangOf returns the language of a name; English where there is none.
func LangOf(name string) Lang {
	for _, l := range Langs {
		if string(l.Lang) == name {
			return l.Lang
		}
	}
	return English
}

// sayer gives the words of an id.
type sayer func(id string) string

func (l Lang) say(id string) string {
	column := 1
	for i, known := range Langs {
		if known.Lang == l {
			column = i + 1
		}
	}
	for row := range strings.Lines(words) {
		if cells := strings.Split(strings.TrimSuffix(row, "\n"), "|"); cells[0] == id {
			return cells[column]
		}
	}
	return id
}

// words is the table of all words: id, English, German, French, Spanish. The
// translations were not reviewed by a person whose language it is.
const words = `title|How this machine rides|So fährt diese Maschine mit|Comment transporter cette machine|Cómo viaja esta máquina
unreviewed|not translated|Die Übersetzung ist nicht geprüft. Im Zweifel gilt der englische Text.|Traduction non relue. En cas de doute, le texte anglais fait foi.|Traducción sin revisar. En caso de duda vale el texto inglés.
foot|The maker's manual and local law come first. This card does not check the anchor points of the vehicle.|Die Anleitung des Herstellers und das Recht vor Ort gehen vor. Diese Karte prüft die Zurrpunkte des Fahrzeugs nicht.|La notice du fabricant et la loi locale passent d'abord. Cette fiche ne vérifie pas les points d'ancrage du véhicule.|El manual del fabricante y la ley local van primero. Esta ficha no comprueba los anclajes del vehículo.
before|Before you lash|Vor dem Zurren|Avant d'arrimer|Antes de amarrar
lower|Lower boom and platform fully. Lock the slewing. Nothing stays on the platform.|Ausleger und Plattform ganz absenken. Drehwerk sperren. Nichts bleibt auf der Plattform.|Abaisser complètement la flèche et la plate-forme. Bloquer la rotation. Rien ne reste sur la plate-forme.|Bajar del todo la pluma y la plataforma. Bloquear el giro. No dejar nada en la plataforma.
lower-upright|Lower the platform fully. Secure all that extends or turns. Nothing stays on the platform.|Plattform ganz absenken. Alles sichern, was sich ausschieben oder drehen lässt. Nichts bleibt auf der Plattform.|Abaisser complètement la plate-forme. Bloquer tout ce qui s'étend ou tourne. Rien ne reste sur la plate-forme.|Bajar del todo la plataforma. Bloquear todo lo que se extiende o gira. No dejar nada en la plataforma.
reading-before|Take a reading: hours and peak. Write down the time.|Zähler ablesen: Stunden und Spitze. Uhrzeit aufschreiben.|Relever les heures et le pic. Noter l'heure.|Anotar las horas y el pico. Escribir la hora.
block|Put a block under the platform, as the manual says. It rests; it does not hang.|Plattform unterlegen, wie die Anleitung es sagt. Sie liegt auf und hängt nicht.|Caler la plate-forme par-dessous, selon la notice. Elle repose, elle ne pend pas.|Calzar la plataforma por debajo, según el manual. Se apoya, no cuelga.
switch-off|Switch off at the main switch before lashing. Take the key.|Vor dem Zurren am Hauptschalter ausschalten. Schlüssel abziehen.|Couper l'interrupteur principal avant d'arrimer. Retirer la clé.|Apagar con el interruptor principal antes de amarrar. Quitar la llave.
hold|Hold it here|Hier halten|Arrimer ici|Sujetar aquí
points|Only at the marked tie-down points of the chassis.|Nur an den gekennzeichneten Zurrpunkten des Fahrgestells.|Seulement aux points d'arrimage marqués du châssis.|Solo en los puntos de amarre marcados del chasis.
web|strap|Gurt|sangle|cinta
chain|chain|Kette|chaîne|cadena
rope|wire rope|Drahtseil|câble d'acier|cable de acero
front|to the front, %.0f° to the deck, %.0f° outward|nach vorn, %.0f° zur Ladefläche, %.0f° nach außen|vers l'avant, %.0f° avec le plateau, %.0f° vers l'extérieur|hacia delante, %.0f° con la plataforma de carga, %.0f° hacia fuera
rear|to the rear, %.0f° to the deck, %.0f° outward|nach hinten, %.0f° zur Ladefläche, %.0f° nach außen|vers l'arrière, %.0f° avec le plateau, %.0f° vers l'extérieur|hacia atrás, %.0f° con la plataforma de carga, %.0f° hacia fuera
over|over the chassis|über das Fahrgestell|par-dessus le châssis|por encima del chasis
held|By %s this holds %.0f %% forward, %.0f %% to the rear, %.0f %% sideways of what is asked.|Nach %s hält das vorn %.0f %%, hinten %.0f %%, seitlich %.0f %% des Verlangten.|Selon %s, cela tient %.0f %% vers l'avant, %.0f %% vers l'arrière, %.0f %% de côté de ce qui est demandé.|Según %s, sujeta el %.0f %% hacia delante, %.0f %% hacia atrás, %.0f %% de lado de lo exigido.
not-held|NOT ENOUGH by %s: not all is met (forward %.0f %%, rear %.0f %%, sideways %.0f %%). Do not drive; ask the depot.|REICHT NICHT nach %s: nicht alles ist erfüllt (vorn %.0f %%, hinten %.0f %%, seitlich %.0f %%). Nicht fahren; im Depot fragen.|INSUFFISANT selon %s : tout n'est pas satisfait (avant %.0f %%, arrière %.0f %%, côté %.0f %%). Ne pas rouler ; demander au dépôt.|NO BASTA según %s: no se cumple todo (delante %.0f %%, detrás %.0f %%, lado %.0f %%). No circular; preguntar en el depósito.
not-worked|How many lashings are needed was not worked out. Ask the depot; at least four.|Wie viele Zurrmittel nötig sind, wurde nicht berechnet. Im Depot fragen; mindestens vier.|Le nombre d'arrimages n'a pas été calculé. Demander au dépôt ; au moins quatre.|No se ha calculado cuántos amarres hacen falta. Preguntar en el depósito; al menos cuatro.
hard|Tension by hand, as the label says. No pipe on the lever.|Von Hand spannen, wie das Etikett sagt. Kein Rohr auf dem Hebel.|Tendre à la main, selon l'étiquette. Pas de rallonge sur le levier.|Tensar a mano, según la etiqueta. Sin tubo en la palanca.
never|Never|Niemals|Jamais|Nunca
never-over|Never ratchet over the platform, its rails or its floor.|Nie über Plattform, Geländer oder Plattformboden zurren.|Ne jamais sangler par-dessus la plate-forme, ses garde-corps ou son plancher.|Nunca pasar cintas por encima de la plataforma, sus barandillas o su piso.
reads-as|%d × over it loads it like %.0f to %.0f kg|%d × darüber belastet sie wie %.0f bis %.0f kg|%d × par-dessus la charge comme %.0f à %.0f kg|%d × por encima la carga como %.0f a %.0f kg
reads-percent|, up to %.0f %% of its rated load|, bis zu %.0f %% der Nennlast|, jusqu'à %.0f %% de sa charge nominale|, hasta el %.0f %% de su carga nominal
never-under|Never go under a raised platform.|Nie unter eine angehobene Plattform treten.|Ne jamais passer sous une plate-forme levée.|Nunca pasar bajo una plataforma elevada.
never-line|Never stand in line with a lashing under tension.|Nie in der Zugrichtung eines gespannten Zurrmittels stehen.|Ne jamais se tenir dans l'axe d'un arrimage tendu.|Nunca ponerse en línea con un amarre tensado.
never-edge|Never over a sharp edge without protection.|Nie ohne Schutz über scharfe Kanten.|Jamais sur une arête vive sans protection.|Nunca sobre un canto vivo sin protección.
way|On the way, and after|Unterwegs und danach|En route, et après|En ruta y después
recheck|Check the lashings after a few kilometres and at every stop. Tension again.|Zurrmittel nach wenigen Kilometern und bei jedem Halt prüfen. Nachspannen.|Vérifier les arrimages après quelques kilomètres et à chaque arrêt. Retendre.|Revisar los amarres a los pocos kilómetros y en cada parada. Volver a tensar.
reading-after|After unloading take a reading again. If the peak rose, the machine stays out of use; tell the depot.|Nach dem Abladen wieder ablesen. Ist die Spitze gestiegen, bleibt die Maschine stehen; Depot verständigen.|Après déchargement, relever à nouveau. Si le pic a monté, la machine reste à l'arrêt ; prévenir le dépôt.|Tras descargar, anotar otra vez. Si el pico subió, la máquina no se usa; avisar al depósito.
trips|What the last trips showed|Was die letzten Fahrten zeigten|Ce que les derniers trajets ont montré|Lo que mostraron los últimos viajes
trips-row|%s: the peak rose on %d of %d trips; %d more without readings before and after.|%s: Spitze gestiegen bei %d von %d Fahrten; %d weitere ohne Ablesung vorher und nachher.|%s : pic monté sur %d de %d trajets ; %d autres sans relevé avant et après.|%s: el pico subió en %d de %d viajes; otros %d sin lectura antes y después.
trips-read|%s: the peak rose on %d of %d trips.|%s: Spitze gestiegen bei %d von %d Fahrten.|%s : pic monté sur %d de %d trajets.|%s: el pico subió en %d de %d viajes.
trips-unread|%s: not known; %d trips without readings before and after.|%s: nicht bekannt; %d Fahrten ohne Ablesung vorher und nachher.|%s : inconnu ; %d trajets sans relevé avant et après.|%s: no se sabe; %d viajes sin lectura antes y después.
nobody|haulier not named|Spediteur nicht genannt|transporteur non nommé|transportista sin nombre
no-trips|No trips on record. Take readings before and after.|Keine Fahrten erfasst. Vorher und nachher ablesen.|Aucun trajet enregistré. Relever avant et après.|No hay viajes registrados. Anotar antes y después.
`
