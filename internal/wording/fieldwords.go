package wording

// fieldWords are the words of headings: one row for each field and language,
// phrases divided by semicolons; the row without a language has the names of
// the case file that the others do not give. General vocabulary of the trade
// and of everyday tables, from memory. A phrase that stands at several fields
// can mean each of them; a test lists every such phrase.
// Those for bands, custody, events and days are in [bandFieldWords].
var fieldWords = []fieldRow{
	{FieldMachine, "", "machine"},
	{FieldMachine, "en", "machine id;machine no;machine name;unit no;unit id;serial;serial no;serial number;s/n;sn;fleet no;fleet number;asset;asset no;asset id;plant no;equipment;equipment no;equipment id;id;platform no;vehicle no"},
	{FieldMachine, "de", "maschine;maschinen nr;maschinennummer;maschinenbezeichnung;masch nr;gerät;gerätenummer;geräte nr;geräte id;seriennummer;serien nr;fabriknummer;fabrik nr;inventarnummer;inventar nr;fahrgestellnummer;bühne;bühnennummer;arbeitsbühne"},
	{FieldMachine, "fr", "engin;no engin;numéro de série;no de série;no série;numéro de machine;no machine;no de parc;numéro de parc;matériel;nacelle;identifiant;appareil"},
	{FieldMachine, "es", "máquina;no de máquina;número de serie;no de serie;número de máquina;equipo;no de equipo;plataforma;matrícula;identificador"},
	{FieldMachine, "it", "macchina;matricola;numero di serie;no di serie;numero macchina;mezzo;piattaforma;no matricola;numero di matricola"},

	{FieldKind, "en", "kind;kind of machine;type;machine type;machine kind;type of machine;platform type;category;machine category"},
	{FieldKind, "de", "art;typ;maschinenart;maschinentyp;gerätetyp;geräteart;bauart;gattung"},
	{FieldKind, "fr", "genre;type de machine;type d'engin;catégorie;type de nacelle"},
	{FieldKind, "es", "tipo;clase;tipo de máquina;tipo de plataforma;categoría"},
	{FieldKind, "it", "genere;tipo di macchina;tipo macchina;tipo piattaforma;categoria"},

	{FieldRatedLoad, "", "rated load kg"},
	{FieldRatedLoad, "en", "rated load;rated capacity;capacity;swl;safe working load;working load limit;platform capacity;nominal load;max capacity;maximum capacity;rated platform load;load capacity;maximum platform capacity;permissible load;maximum load;max load;max platform load;maximum platform load"},
	{FieldRatedLoad, "de", "nennlast;traglast;max traglast;maximale traglast;tragfähigkeit;zulässige last;zul last;nutzlast;korblast;zulässige korblast;tragkraft;max tragfähigkeit;maximale tragfähigkeit;zulässige belastung;nenntragfähigkeit;maximale last;max last;maximallast"},
	{FieldRatedLoad, "fr", "charge nominale;capacité;capacité nominale;charge utile;cmu;charge maximale d'utilisation;capacité maximale;charge admissible;capacité de charge;charge maximale;charge max"},
	{FieldRatedLoad, "es", "carga nominal;capacidad;capacidad nominal;capacidad de carga;carga útil;carga admisible;capacidad máxima;cmu;carga máxima de utilización;carga máxima;carga max"},
	{FieldRatedLoad, "it", "portata;carico nominale;portata nominale;capacità;portata massima;capacità di carico;carico ammissibile;capacità nominale;carico massimo;carico max"},

	{FieldPersons, "en", "persons;number of persons;people;occupants;no of persons;max persons;persons on platform;number of people"},
	{FieldPersons, "de", "personen;personenzahl;anzahl personen;zulässige personenzahl;max personen;personenanzahl;zahl der personen"},
	{FieldPersons, "fr", "personnes;nombre de personnes;no de personnes;nb personnes;nbre de personnes;occupants"},
	{FieldPersons, "es", "personas;número de personas;no de personas;ocupantes;max personas"},
	{FieldPersons, "it", "persone;numero di persone;no persone;numero persone;occupanti"},

	{FieldLoadSensing, "en", "load sensing;load sensing limit;load sensing threshold;load sensing trip;overload threshold;overload limit;overload cut out;alarm threshold;load sensing setting;overload trip point"},
	{FieldLoadSensing, "de", "lasterfassung;lastbegrenzung;abschaltlast;ansprechlast;überlastgrenze;überlastschwelle;alarmschwelle;überlastabschaltung"},
	{FieldLoadSensing, "fr", "seuil de surcharge;limiteur de charge;seuil d'alarme;détection de charge;seuil de coupure;limite de surcharge"},
	{FieldLoadSensing, "es", "limitador de carga;umbral de sobrecarga;umbral de alarma;detección de carga;límite de sobrecarga"},
	{FieldLoadSensing, "it", "limitatore di carico;soglia di sovraccarico;soglia di allarme;rilevamento del carico;soglia sovraccarico;limite di sovraccarico"},

	{FieldMass, "", "mass kg"},
	{FieldMass, "en", "mass;machine mass;machine weight;weight;gross weight;vehicle weight;overall weight;own weight;unladen weight;dead weight;service weight"},
	{FieldMass, "de", "zul gesamtgewicht;zulässiges gesamtgewicht;masse;gewicht;eigengewicht;maschinengewicht;gesamtgewicht;eigenmasse;maschinenmasse;leergewicht;dienstgewicht;betriebsgewicht"},
	{FieldMass, "fr", "poids;masse à vide;poids à vide;poids total;poids de la machine;masse de la machine;masse totale"},
	{FieldMass, "es", "masa;peso;peso total;peso propio;peso de la máquina;peso en vacío;tara"},
	{FieldMass, "it", "massa;peso totale;peso proprio;peso macchina;peso a vuoto;massa totale;massa a vuoto"},

	{FieldInService, "en", "in service;in service since;in service date;commissioned;commissioning date;date of commissioning;first use;date of first use;put into service;entered service"},
	{FieldInService, "de", "inbetriebnahme;in betrieb seit;datum der inbetriebnahme;inbetriebnahmedatum;erstinbetriebnahme;erste inbetriebnahme"},
	{FieldInService, "fr", "mise en service;date de mise en service;en service depuis;première mise en service"},
	{FieldInService, "es", "puesta en servicio;fecha de puesta en servicio;puesta en marcha;fecha de puesta en marcha;en servicio desde"},
	{FieldInService, "it", "messa in servizio;data di messa in servizio;in servizio dal;messa in funzione;data messa in servizio"},

	{FieldReadingAt, "", "reading at;at"},
	{FieldReadingAt, "en", "date read;read;reading;read at;time of reading;reading date and time;date and time;date time;timestamp;time stamp;date of reading;reading date time;read on;readout;readout time;recorded at;when;date;time;logged at;date and time of reading"},
	{FieldReadingAt, "de", "ablesung;abgelesen am;zeitpunkt;datum und uhrzeit;datum uhrzeit;datum zeit;zeitstempel;zeitpunkt der ablesung;auslesung;ausgelesen am;auslesezeitpunkt;datum;zeit;uhrzeit;stand vom"},
	{FieldReadingAt, "fr", "relevé;date du relevé;date et heure;horodatage;relevé le;date heure;date de lecture;lecture;heure;date et heure du relevé"},
	{FieldReadingAt, "es", "lectura;fecha de lectura;fecha y hora;marca de tiempo;fecha hora;leído el;fecha;hora;fecha y hora de lectura"},
	{FieldReadingAt, "it", "lettura;data di lettura;data e ora;marca temporale;data ora;letto il;data lettura;rilevamento;data;ora;data e ora di lettura"},

	{FieldReadingDate, "en", "reading date;date of reading;date;read on;readout date"},
	{FieldReadingDate, "de", "ablesedatum;auslesedatum;datum der ablesung;datum;abgelesen am;datum der auslesung"},
	{FieldReadingDate, "fr", "date du relevé;date de relevé;date de lecture;relevé le"},
	{FieldReadingDate, "es", "fecha de lectura;fecha"},
	{FieldReadingDate, "it", "data di lettura;data lettura;data;data del rilevamento"},

	{FieldReadingTime, "en", "reading time;time;time of day;clock time;readout time"},
	{FieldReadingTime, "de", "ablesezeit;uhrzeit;zeit;auslesezeit;uhrzeit der ablesung;tageszeit"},
	{FieldReadingTime, "fr", "heure du relevé;heure;heure de lecture;heure de relevé"},
	{FieldReadingTime, "es", "hora de lectura;hora;hora del día"},
	{FieldReadingTime, "it", "ora di lettura;ora;orario;ora lettura;ora del rilevamento"},

	{FieldPowered, "en", "hours used;usage hours;powered;powered hours;powered time;powered on time;hour meter;hours meter;hour meter reading;hourmeter;operating hours;operating time;engine hours;running hours;run time;run hours;total hours;machine hours;hours of operation;working hours;meter hours;reading;on time;hours run;hours;hours on;power on hours;key on hours"},
	{FieldPowered, "de", "betriebsstunden;betriebsstundenzähler;betriebsstundenstand;betriebszeit;bh;einschaltdauer;einschaltzeit;laufzeit;laufstunden;motorstunden;maschinenstunden;gesamtstunden;stundenzähler;zählerstand;betriebsstunden gesamt;stunden;einschaltstunden;gesamtbetriebsstunden;eingeschaltet;stundenzählerstand;ablesung"},
	{FieldPowered, "fr", "heures de fonctionnement;horamètre;compteur horaire;heures moteur;heures de service;heures machine;temps de fonctionnement;heures totales;heures sous tension;temps sous tension;heures;heures de marche;compteur d'heures;relevé;lecture"},
	{FieldPowered, "es", "horas de funcionamiento;horómetro;cuentahoras;horas de motor;horas de máquina;horas de servicio;horas totales;horas de trabajo;tiempo de funcionamiento;horas encendido;horas;contador de horas;horas de operación;lectura"},
	{FieldPowered, "it", "ore di funzionamento;contaore;ore motore;ore macchina;ore di lavoro;ore di servizio;ore totali;tempo di funzionamento;ore accensione;ore;ore di esercizio;lettura"},

	{FieldMoving, "en", "moving;moving hours;moving time;hours in motion;motion hours;motion time;movement hours;movement time;driving hours;drive hours;drive time;travel hours;travel time;function hours;hours moving"},
	{FieldMoving, "de", "bewegt;bewegungsstunden;bewegungszeit;fahrstunden;fahrzeit;fahrbetriebsstunden;stunden in bewegung;hubstunden;bewegungsdauer;funktionsstunden"},
	{FieldMoving, "fr", "en mouvement;heures de mouvement;temps de mouvement;heures en mouvement;heures de translation;heures de déplacement;temps de translation;temps de déplacement"},
	{FieldMoving, "es", "en movimiento;horas de movimiento;horas en movimiento;tiempo de movimiento;tiempo en movimiento;horas de desplazamiento;horas de traslación;tiempo de traslación"},
	{FieldMoving, "it", "in movimento;ore di movimento;ore in movimento;tempo di movimento;ore di traslazione;tempo di traslazione;tempo in movimento"},

	{FieldPeak, "", "peak kg"},
	{FieldPeak, "en", "lifetime peak;lifetime peak load;all time peak;max platform load;maximum platform load;max load seen;maximum load seen;highest load seen;peak ever;highest ever;peak load ever;peak;peak load;highest load;maximum load;max load;largest load;peak weight;highest load ever;maximum recorded load;max recorded load;highest load recorded;peak value;max;maximum;heaviest load"},
	{FieldPeak, "de", "max gemessen;maximal gemessen;höchste gemessene last;max gemessene last;spitze;spitzenlast;höchstlast;höchste last;maximallast;maximale last;max last;spitzenwert;lastspitze;größte last;höchstwert;maximum;schleppzeiger"},
	{FieldPeak, "fr", "pic;pic de charge;charge maximale;charge max;charge de pointe;charge la plus élevée;pointe;charge maximale enregistrée;valeur maximale"},
	{FieldPeak, "es", "pico;pico de carga;carga máxima;carga pico;carga max;carga más alta;valor máximo;carga máxima registrada;máximo"},
	{FieldPeak, "it", "picco;picco di carico;carico massimo;carico max;carico di picco;carico più alto;valore massimo;massimo;carico massimo registrato"},

	{FieldPeakAt, "en", "peak at;time of peak;peak time;date of peak;peak date;time of the highest load;date of maximum load;peak on;peak load at;peak load date;peak load time;time of maximum load;max load on;max load at;maximum load on;maximum load at;highest load on;highest load at;date of highest load;date of the highest load;max load date;max load time;peak load on"},
	{FieldPeakAt, "de", "spitze am;zeitpunkt der spitze;zeitpunkt der spitzenlast;datum der spitze;datum der höchstlast;zeitpunkt der höchstlast;höchstlast am;spitzenlast am;datum der spitzenlast;max last am;maximale last am;höchste last am"},
	{FieldPeakAt, "fr", "date du pic;heure du pic;date de la charge maximale;pic le;date de charge maximale;date et heure du pic"},
	{FieldPeakAt, "es", "fecha del pico;hora del pico;fecha de la carga máxima;fecha de carga máxima;fecha y hora del pico"},
	{FieldPeakAt, "it", "data del picco;ora del picco;data del carico massimo;data picco;data e ora del picco"},
}

// fieldRow is what a field is called in one language.
type fieldRow struct {
	field    Field
	language string
	phrases  string
}
