package intake_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// exports are whole files as they may come from a machine or a depot, each with
// one peculiarity: what is read, the closed list of doubts and blocking
// findings, and how many questions are asked.
var exports = []struct {
	name, text, want string
	found            []string
	asked            int
}{
	{name: "minutes behind the bands", text: "Machine,Date,Rated load (kg),0-100 kg (min),>100 kg [min]\nA,2025-05-01,250,6000,90\n",
		want: "A 250 | 2025-05-01T00:00:00Z [0-100:100 100-:1.5]"},
	{name: "shares behind the bands", text: "Machine,Rated load (kg),Hour meter,0-100 kg (%),>100 kg (%)\nA,250,1000,99.5,0.5\n",
		want: "A 250 | on 1000 [0-100:995 100-:5]"},
	{name: "fractions under percent", text: "Machine,Rated load (kg),Hour meter,0-100 kg (%),>100 kg (%)\nA,250,1000,0.995,0.005\n",
		want: "A 250 | on 1000", found: []string{"shares-of-one 2:1", "reading-empty 2:1"}},
	{name: "percent of what", text: "Machine,Rated load (kg),Hour meter,0-90 (%),>90 (%)\nA,250,1000,60,40\n",
		want: "A 250 | on 1000", found: []string{"unit-unknown 1:36", "unit-unknown 1:45", "reading-empty 2:1"}},
	{name: "a scale in words", text: "Machine,A\nRated load,250 kg\n\nBand (kg),Std. (in Tausend)\n0-100,60\n>100,1.5\n",
		want: "A 250 |", found: []string{"unit-unknown 4:11", "bands-incomplete 5:1", "reading-empty 5:1"}},
	{name: "a sum over the rated load", text: "Machine,A\nRated load,250 kg\n\nBand (kg),Hours\n0-100,100\n100-250,50\nTotal over 250 kg,1.5\n",
		want: "A 250 | [0-100:100 100-250:50]", found: []string{"value-unreadable 7:1", "bands-incomplete 7:1"}},
	{name: "shares of lifts", text: "Machine,A\nRated load,250 kg\nPeak,320 kg\n\nBand (kg),Share of lifts\n0-100,60\n>100,1.5\n",
		want: "A 250 | peak 320", found: []string{"heading-unread 5:1"}},
	{name: "days", text: "Machine,A\nRated load,250 kg\nPeak,320 kg\n\nBand (kg),Time (days)\n0-100,60\n>100,1.5\n",
		want: "A 250 | peak 320", found: []string{"heading-unread 5:1"}},
	{name: "cumulated in words", text: "Machine,A\nRated load,250 kg\nPeak,320 kg\n\nLast kumuliert,Stunden\n>0 kg,60\n>100 kg,1.5\n",
		want: "A 250 | peak 320", found: []string{"counts-unclear 6:1"}, asked: 1},
	{name: "a peak in percent on a line", text: "Machine,A\nRated load,250 kg\nPeak (% of rated),128\n\nBand (kg),Hours\n0-100,60\n100-250,38\n",
		want: "A 250 | peak 320 [0-100:60 100-250:38]", found: []string{"peak-above-all-bands 3:19"}},
	{name: "a peak in percent in a cell", text: "Machine,Rated load (kg),Peak\nA,250,128 %\n", want: "A 250 | peak 320"},
	{name: "a peak in percent of nothing", text: "Machine,Peak (%)\nA,128\n", want: "A |", found: []string{"peak-without-rated-load 2:3", "rated-load-missing 2:1", "reading-empty 2:1"}},
	{name: "a peak times ten on a line", text: "Machine,A\nRated load,250 kg\nPeak x10 (kg),32\n\nBand (kg),Hours\n0-100,60\n100-250,38\n",
		want: "A 250 | [0-100:60 100-250:38]", found: []string{"line-unread 3:1"}},
	{name: "lifts beside hours", text: "Machine,Rated load (kg),0-100 kg,0-100 kg lifts,>100 kg,>100 kg lifts\nA,250,100,9,5,1\n",
		want: "A 250 | [0-100:100 100-:5]"},
	{name: "one cell not counted", text: "Machine,Rated load (kg),0-100 kg,100-250 kg,>250 kg\nA,250,100*,50,1.5\n",
		want: "A 250 | [100-250:50 250-:1.5]", found: []string{"value-unreadable 2:7", "bands-incomplete 2:7"}},
	{name: "one cell below what is counted", text: "Machine,Rated load (kg),Peak (kg),0-100 kg,100-250 kg,>250 kg\nA,250,320,100,50,<0.1\n",
		want: "A 250 | peak 320 [0-100:100 100-250:50]", found: []string{"value-unreadable 2:18", "bands-incomplete 2:18", "peak-above-all-bands 2:7"}},
	{name: "one reading lacks a band", text: "Machine,Date,Rated load (kg),0-100 kg,>100 kg\nA,2025-01-05,250,10,2\nA,2025-02-05,250,11,?\n",
		want: "A 250 | 2025-01-05T00:00:00Z [0-100:10 100-:2] | 2025-02-05T00:00:00Z", found: []string{"value-unreadable 3:21", "bands-incomplete 3:21", "reading-empty 3:3"}},
	{name: "three values of two readings", text: "Machine,Rated load (kg),0-100 kg,100-250 kg,>250 kg\nA,250,1.250,50.500,2.125\n",
		want: "A 250 |", found: []string{"number-ambiguous 2:7", "number-ambiguous 2:13", "number-ambiguous 2:20", "reading-empty 2:1"}, asked: 3},
	{name: "a machine called as a word", text: "Serial number: Max\nType: Class\nRated load: 250 kg\n0-100 kg: 5 h\nover 100 kg: 1 h\n",
		want: "Max 250 | [0-100:5 100-:1]"},
	{name: "shares of a part", text: "Machine,Rated load (kg),Hour meter,Band (kg),Share\nA,250,1000,100-250,0.995\nA,250,1000,>250,0.005\n",
		want: "A 250 | on 1000", found: []string{"shares-of-one 2:1", "reading-empty 2:1"}},
	{name: "shares of nothing known", text: "Machine,Rated load (kg),Hour meter,Band (kg),Share\nA,250,1000,0-250,20\nA,250,1000,>250,10\n",
		want: "A 250 | on 1000", found: []string{"shares-unclear 2:1", "reading-empty 2:1"}},
	{name: "shares that miss hours", text: "Machine,Rated load (kg),Hour meter,Band (kg),Share (%)\nA,250,1000,0-250,70\nA,250,1000,>250,10\n",
		want: "A 250 | on 1000 [0-250:700 250-:100]", found: []string{"shares-odd 2:1"}},
	{name: "hours of two kinds and of none", text: "Machine,Rated load (kg),0-100 kg,100-250 kg,>250 kg\nA,250,100 h,3000 min,90\n",
		want: "A 250 |", found: []string{"unit-unclear 2:1", "reading-empty 2:1"}},
	{name: "loads as forces", text: "Machine,Rated load (kN),Peak kN,0-1 kN,>1 kN\nA,1,98.0665 daN,5,0\n",
		want: "A 101.97162129779282 | peak 100 [0-101.97162129779282:5 101.97162129779282-:0]", found: []string{"plate-inconsistent 2:3"}},
	{name: "pounds as they are marked", text: "Machine,A\nRated load,500#\nPeak,600#\n",
		want: "A 226.796185 | peak 272.155422"},
	{name: "number and limits of a band", text: "Machine,A\nRated load,250 kg\n\nBand,Load (kg),Hours\n1,0-100,100\n2,100-250,50\n3,>250,1.5\n",
		want: "A 250 | [0-100:100 100-250:50 250-:1.5]"},
	{name: "loads in two units", text: "Machine,Rated load (lb),Rated load (kg),0-250 kg,>250 kg,Peak (lb),Peak (kg)\nA,551,250,50,1.5,705,320\n",
		want: "A 250 | peak 320 [0-250:50 250-:1.5]"},
	{name: "bands in two units", text: "Machine,A\nRated load,250 kg\n\nBand (lb),Band (kg),Hours\n0-551,0-250,50\n>551,>250,1.5\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "units in a column", text: "Machine,Rated load,Unit,Peak,Unit,Hour meter\nA,529,lb,705,lb,412.5\n",
		want: "A 239.95036373000002 | on 412.5 peak 319.78262085"},
	{name: "two columns called hours", text: "Machine,Rated load (kg),Hours,Band,Hours\nA,250,400,0-250 kg,165\nA,250,400,over 250 kg,99\n",
		want: "A 250 | on 400 [0-250:165 250-:99]"},
	{name: "two columns of hours that both change", text: "Machine,Rated load (kg),Hours,Band,Hours\nA,250,400,0-250 kg,165\nA,250,500,over 250 kg,99\n",
		want: "A 250 |", found: []string{"column-twice 1:36", "bands-incomplete 2:11", "reading-empty 2:1"}},
	{name: "holders under another name", text: "Machine,Date,Rated load (kg),Peak (kg)\nA,2025-01-01 08:00,250,200\n\nMachine,From,To,Who,What\nA,2025-01-01 08:00,2025-01-02 08:00,X,hire\nA,2025-01-02 08:00,2025-01-03 08:00,Y,yard\n",
		want: "A 250 | 2025-01-01T08:00:00Z peak 200 | hire 2025-01-01 2025-01-02 | depot 2025-01-02 2025-01-03"},
	{name: "the hour meter beside every band", text: "Machine,Rated load (kg),Hours,Band,Count\nA,250,400,0-250 kg,9\nA,250,400,over 250 kg,1\n",
		want: "A 250 |", found: []string{"hours-alike 2:1", "reading-empty 2:1"}},
	{name: "lower edges alone that fall", text: "Machine,A\nRated load,250 kg\n\nLoad from (kg),Hours\n0,100\n100,50\n250,1.5\n",
		want: "A 250 |", found: []string{"counts-unclear 5:1", "reading-empty 5:1"}, asked: 1},
	{name: "lower edges alone that do not fall", text: "Machine,A\nRated load,250 kg\n\nLoad from (kg),Hours\n0,50\n100,100\n250,1.5\n",
		want: "A 250 | [0-100:50 100-250:100 250-:1.5]"},
	{name: "lower edges and the hour meter", text: "Machine,A\nRated load,250 kg\nHour meter,151.5 h\n\nLoad from (kg),Hours\n0,100\n100,50\n250,1.5\n",
		want: "A 250 | on 151.5 [0-100:100 100-250:50 250-:1.5]"},
	{name: "hours over each load and the hour meter", text: "Machine,Rated load (kg),Hour meter,Hours over 0 kg,Hours over 100 kg,Hours over 250 kg\nA,250,171.5,171.5,71.5,1.5\n",
		want: "A 250 | on 171.5 [0-100:100 100-250:70 250-:1.5]"},
	{name: "hours over each load", text: "Machine,Rated load (kg),Hours over 0 kg,Hours over 100 kg,Hours over 250 kg\nA,250,171.5,71.5,1.5\n",
		want: "A 250 |", found: []string{"counts-unclear 2:1", "reading-empty 2:1"}, asked: 1},
	{name: "upper edges alone", text: "Machine,A\nRated load,250 kg\n\nUp to (kg),Hours\n100,100\n250,50\n400,1.5\n",
		want: "A 250 | [0-100:100 100-250:50 250-400:1.5]"},
	{name: "upper edges alone that rise", text: "Machine,A\nRated load,250 kg\n\nUp to (kg),Hours\n100,100\n250,150\n400,151.5\n",
		want: "A 250 |", found: []string{"counts-unclear 5:1", "reading-empty 5:1"}, asked: 1},
	{name: "upper edges and one over", text: "Machine,Rated load (kg),up to 100 kg,up to 250 kg,over 250 kg\nA,250,100,50,1.5\n",
		want: "A 250 | [0-100:100 100-250:50 250-:1.5]"},
	{name: "a blank lower edge", text: "Machine,Rated load (kg),from_kg,to_kg,hours\nA,250,,250,50\nA,250,250,,1.5\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "edges that end a tenth below", text: "Machine,Rated load (kg),from (kg),to (kg),hours\nA,250,0,99.9,50\nA,250,100,249.9,9\nA,250,250,9999,1.5\n",
		want: "A 250 | [0-100:50 100-250:9 250-9999:1.5]"},
	{name: "a rated load in pounds, bands in kg", text: "Machine,Rated load,Peak,0-113 kg,113-227 kg,>227 kg\nA,500 lb,640 lb,100,50,1.5\n",
		want: "A 226.796185 | peak 290.29911680000004 [0-113:100 113-226.796185:50 226.796185-:1.5]"},
	{name: "a rated load in kg, bands in pounds", text: "Machine,Rated load (kg),0-250 lb,250-500 lb,>500 lb\nA,227,100,50,1.5\n",
		want: "A 227 | [0-113.3980925:100 113.3980925-227:50 227-:1.5]"},
	{name: "a peak that is the rated load", text: "Machine,Rated load,Peak\nA,500 lb,227 kg\n", want: "A 226.796185 | peak 226.796185"},
	{name: "a row twice", text: "Machine,Date,Rated load (kg),Peak (kg),0-250 kg,>250 kg\nA,2025-05-01,250,320,50,1.5\nA,2025-05-01,250,320,50,1.5\nA,2025-06-01,250,320,60,1.5\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 320 [0-250:50 250-:1.5] | 2025-06-01T00:00:00Z peak 320 [0-250:60 250-:1.5]"},
	{name: "two rows of one date", text: "Machine,Date,Rated load (kg),0-250 kg,>250 kg\nA,2025-05-01,250,50,1.5\nA,2025-05-01,250,60,1.5\n",
		want: "A 250 | 2025-05-01T00:00:00Z [0-250:50 250-:1.5] | 2025-05-01T00:00:00Z [0-250:60 250-:1.5]", found: []string{"readings-same-time 3:3", "faster-than-clock 3:3"}},
	{name: "a band row twice", text: "Machine,Rated load (kg),Band,Hours in band\nA,250,0-250 kg,50\nA,250,0-250 kg,50\nA,250,>250 kg,1.5\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "dates as numbers of days", text: "Machine,Date,Rated load (kg),Peak (kg)\nA,45778,250,200\nA,45779.5,250,210\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 200 | 2025-05-02T12:00:00Z peak 210", found: []string{"date-from-number 2:3"}},
	{name: "a date as seconds", text: "Machine,Date,Rated load (kg),Peak (kg)\nA,1746057600,250,200\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 200", found: []string{"date-from-number 2:3"}},
	{name: "what plates say", text: "Machine,A\nRated load,230 kg (500 lb)\nPeak,320 kg / 705 lb\n", want: "A 230 | peak 320"},
	{name: "rated load and persons", text: "Machine,A\nRated load,250 kg / 2 persons\nPeak,max 320 kg\n", want: "A 250 | peak 320"},
	{name: "two loads in one cell", text: "Machine,A\nRated load,250 kg\nPeak,240/320 kg\n0-250 kg,5 h\n>250 kg,0 h\n", want: "A 250 | [0-250:5 250-:0]", found: []string{"value-unreadable 3:6"}},
	{name: "a load in two units that do not agree", text: "Machine,A\nRated load,250 kg (600 lb)\nPeak,200 kg\n", want: "A | peak 200", found: []string{"value-unreadable 2:12", "rated-load-missing 3:1"}},
	{name: "a peak with its day", text: "Machine,A\nRated load,250 kg\nPeak,312 kg on 12 February 2025 at 07:30\n", want: "A 250 | peak 312 at 2025-02-12T07:30:00Z"},
	{name: "a peak beyond the display", text: "Machine,Rated load (kg),Peak (kg),0-250 kg,>250 kg\nA,250,>500,5,0\n", want: "A 250 | [0-250:5 250-:0]", found: []string{"value-unreadable 2:7"}},
	{name: "days and hours", text: "Machine,Rated load (kg),0-250 kg,>250 kg\nA,250,4d 05:30,1 day 2 h\n", want: "A 250 | [0-250:101.5 250-:26]"},
	{name: "hours and minutes in two columns", text: "Machine,A\nRated load,250 kg\n\nBand (kg),Hours,Minutes\n0-250,100,30\n>250,1,30\n", want: "A 250 | [0-250:100.5 250-:1.5]"},
	{name: "remarks behind bands", text: "Machine,A\nRated load,250 kg\n\nBand (kg),Hours\n0-100 (empty platform),100\n100-250 ordinary use,50\n>250 OVERLOAD,1.5\n", want: "A 250 | [0-100:100 100-250:50 250-:1.5]"},
	{name: "over the rated load in words", text: "Machine,Rated load (kg),0-100 kg,100-250 kg,over rated load\nA,250,100,50,1.5\n", want: "A 250 | [0-100:100 100-250:50 250-:1.5]"},
	{name: "over the rated load in German", text: "Maschine;Nennlast (kg);0-100 kg;100-250 kg;> Nennlast\nA;250;100;50;1,5\n", want: "A 250 | [0-100:100 100-250:50 250-:1.5]"},
	{name: "over the rated load in a row", text: "Machine,A\nRated load,250 kg\n\nBand (kg),Hours\n0-250,50\n>100% RL,1.5\n", want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "one column for each machine", text: "Machine;A;B\nRated load;250 kg;200 kg\nDate;2025-05-01;2025-05-01\n0-200 kg;50;5\n>200 kg;1,5;0,5\nPeak;320 kg;260 kg\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 320 [0-200:50 200-:1.5]; B 200 | 2025-05-01T00:00:00Z peak 260 [0-200:5 200-:0.5]"},
	{name: "one column for each date", text: "Machine;A\nNennlast;250 kg\n\nBand (kg);31.01.2025;28.02.2025\n0-250;100,5;110,5\n>250;0,5;2,5\nSpitze kg;260;330\n",
		want: "A 250 | 2025-01-31T00:00:00Z peak 260 [0-250:100.5 250-:0.5] | 2025-02-28T00:00:00Z peak 330 [0-250:110.5 250-:2.5]"},
	{name: "two rows of headings", text: "Machine;Date;Rated load;Hours per load band;;Peak\n-;-;kg;0-250 kg;>250 kg;kg\nA;2025-05-01;250;50;1,5;320\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 320 [0-250:50 250-:1.5]"},
	{name: "two rows of headings, in minutes", text: "Machine;Rated load;Time in band [min];;Peak\n;kg;0-250 kg;>250 kg;kg\nA;250;3000;90;320\n",
		want: "A 250 | peak 320 [0-250:50 250-:1.5]"},
	{name: "side by side", text: "Band kg,Hours,,Machine,A\n0-250,50,,Rated load,250 kg\n>250,1.5,,Peak,320 kg\n",
		want: "A 250 | peak 320 [0-250:50 250-:1.5]"},
	{name: "two machines side by side", text: "Machine,A,,Machine,B\nRated load,250 kg,,Rated load,200 kg\nPeak,320 kg,,Peak,190 kg\n",
		want: "A 250 | peak 320; B 200 | peak 190"},
	{name: "a gap between columns of one table", text: "Machine,Rated load (kg),,0-250 kg,>250 kg\nA,250,,50,1.5\nB,250,,60,2.5\n",
		want: "A 250 | [0-250:50 250-:1.5]; B 250 | [0-250:60 250-:2.5]"},
	{name: "custody of another width", text: "Machine,Date,Rated load (kg),Peak (kg),0-250 kg,>250 kg\nA,2025-05-01,250,320,50,1.5\n\nMachine,Out,In,Customer,Status\nA,2025-03-01,2025-04-11,X,Rented\nA,2025-04-11,2025-04-13,,Yard\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 320 [0-250:50 250-:1.5] | hire 2025-03-01 2025-04-12 | depot 2025-04-11 2025-04-14"},
	{name: "daily use of another width", text: "Machine,Date,Rated load (kg),Peak (kg),0-250 kg,>250 kg\nA,2025-05-01,250,320,50,1.5\n\nMachine,Day,Hours used\nA,2025-03-02,5.5\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 320 [0-250:50 250-:1.5]"},
	{name: "a load beside columns of bands", text: "Machine,Rated load (kg),Current load (kg),0-250 kg,>250 kg\nA,250,120,50,1.5\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "edges alone in the headings", text: "Machine,Rated load (kg),Peak (kg),0,100,250\nA,250,200,50,9,0\n",
		want: "A 250 | peak 200", found: []string{"column-unread 1:35", "column-unread 1:37", "column-unread 1:41"}},
	{name: "names of loads that say more", text: "Machine,Max. platform load (kg),Max load seen (kg)\nA,250,320\n", want: "A 250 | peak 320"},
	{name: "dates of two orders", text: "Machine,Date,Rated load (kg),Peak (kg),Peak date\nA,25/05/2025,250,200,12/31/2024\n",
		want: "A 250 | 2025-05-25T00:00:00Z peak 200 at 2024-12-31T00:00:00Z", found: []string{"dates-mixed 2:1"}},
	{name: "a machine called as a number", text: "machine,rated_load_kg,band,hours in band\n4711.05,240,0-90 kg,1.234\n4711.05,240,over 90 kg,1.5\n",
		want: "4711.05 240 | [0-90:1.234 90-:1.5]"},
	{name: "a machine called as a number proves no mark", text: "machine,rated_load_kg,band,hours in band\n4711.05,240,0-90 kg,1.234\n4711.05,240,over 90 kg,2.345\n",
		want: "4711.05 240 |", found: []string{"number-ambiguous 2:21", "number-ambiguous 3:24", "reading-empty 2:1"}, asked: 1},
	{name: "labels that end at the rated load", text: "Machine,Rated load,0-250 lb,251-500 lb,501+ lb\nA,500 lb,100,50,1.5\n",
		want: "A 226.796185 | [0-113.85168487:100 113.85168487-226.796185:50 226.796185-:1.5]"},
	{name: "a typed sheet", text: "SHEET\nMachine: A      Serial: 0099\nRated load: 230 kg (2 persons + 70 kg tools)\nDate read: 1 March 2025\nHighest load: 312 kg on 12 February 2025\n\nLoad band        Hours\n0 - 230 kg       40.25\nover 230 kg      1.5\nTotal            41.75\n",
		want: "A 230 | 2025-03-01T00:00:00Z peak 312 at 2025-02-12T00:00:00Z [0-230:40.25 230-:1.5]"},
	{name: "each line in quotes", text: "\"Machine;\"\"Date\"\";Rated load (kg);0-250 kg;>250 kg\"\n\"A;2025-05-01;250;50;1,5\"\n",
		want: "A 250 | 2025-05-01T00:00:00Z [0-250:50 250-:1.5]"},
	{name: "months without a reading", text: "Machine,Date,Rated load (kg),0-250 kg,>250 kg,Peak (kg)\nA,2025-05-01,250,50,1.5,320\nA,2025-06-01,250,,,\nA,2025-07-01,250,-,-,-\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 320 [0-250:50 250-:1.5]"},
	{name: "a date of lines that can be read two ways", text: "Machine,A\nRated load,250 kg\nDate,05/01/2025\n\nBand,Hours\n0-250 kg,50\n>250 kg,1.5\n",
		want: "A 250 | [0-250:50 250-:1.5]", found: []string{"date-ambiguous 3:6"}, asked: 1},
	{name: "names that are nearly alike", text: "Machine,Date,Rated load (kg),Peak (kg)\nF-1,2025-05-01,250,200\nf-1 ,2025-06-01,250,210\nF1,2025-07-01,250,220\n",
		want: "F-1 250 | 2025-05-01T00:00:00Z peak 200 | 2025-06-01T00:00:00Z peak 210; F1 250 | 2025-07-01T00:00:00Z peak 220", found: []string{"names-alike 2:5", "names-alike 4:4"}},
	{name: "a peak in another unit later", text: "Machine,Date,Rated load (kg),Peak\nA,2025-05-01,250,480 kg\nA,2025-06-01,250,1058 lb\n",
		want: "A 250 | 2025-05-01T00:00:00Z peak 480 | 2025-06-01T00:00:00Z peak 480"},
	{name: "the bands of a chart", text: "Machine,Rated load (kg),0-250 kg,>250 kg\nA,250,50,1.5\n\nBand,Hours\n0-250 kg,50\n>250 kg,1.5\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "a remark with a semicolon", text: "Machine,Rated load (kg),0-250 kg,>250 kg\nA,250,50,1.5\nchecked; no faults found\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "a turned table of nobody knows what", text: "Machine;X1\nRated load;250 kg\n\nLoad band;Arm A;Arm B\n0-100 kg;50;60\n100-250 kg;5;6\n>250 kg;1;2\n",
		want: "X1 250", found: []string{"heading-unread 4:1", "reading-missing 0:0"}},
	{name: "unit numbers beside a load", text: "Machine,Rated load,Unit,Peak (kg)\nA,250,17,200\n", want: "A 250 | peak 200"},
	{name: "hours in brackets that are no unit", text: "Machine,Rated load (kg),Band,Hours (in band)\nA,250,0-250 kg,50\nA,250,>250 kg,1.5\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "bands in kN near the rated load", text: "Machine,Rated load (kg),0-2.4 kN,2.4-2.5 kN,>2.5 kN\nA,250,50,5,1.5\n",
		want: "A 250 | [0-244.73189111470276:50 244.73189111470276-250:5 250-:1.5]"},
	{name: "a reading that is a number", text: "Machine,Reading,Rated load (kg),Peak (kg)\nA,45778,250,200\n",
		want: "A 250", found: []string{"row-undated 2:3", "reading-missing 0:0"}},
	{name: "bands of speed", text: "Machine,Rated load (kg),Peak (kg),Speed,Hours\nA,250,200,0-5,50\nA,250,200,>5,1.5\n",
		want: "A 250 | on 50 peak 200 | on 1.5 peak 200", found: []string{"rows-unexplained 3:11", "reading-undated 2:1", "reading-undated 3:1", "counter-backwards 3:14"}},
	{name: "rows of hours and of lifts", text: "Machine,Rated load (kg),Value,0-250 kg,>250 kg\nA,250,h,50,1.5\nA,250,n,1200,30\n",
		want: "A 250 | |", found: []string{"rows-unexplained 3:7", "reading-empty 2:1", "reading-empty 3:1", "reading-undated 2:1", "reading-undated 3:1"}},
	{name: "a unit of hours in a column", text: "Machine,Rated load (kg),Band,Hours,Unit\nA,250,0-250 kg,3000,min\nA,250,>250 kg,90,min\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "units below the table", text: "Machine,Rated load,Peak,0-500,>500\nA,500,640,50,1.5\nunits: lb\n",
		want: "A |", found: []string{"unit-unclear 2:3", "unit-unclear 2:7", "unit-unclear 2:1", "rated-load-missing 2:3", "reading-empty 2:1"}},
	{name: "inclusive labels, the last of them not", text: "Machine,Rated load (kg),<=100 kg,101-250 kg,>250 kg\nA,250,50,9,1.5\n",
		want: "A 250 | [0-101:50 101-250:9 250-:1.5]"},
	{name: "alarms beside loads", text: "Machine,Rated load (kg),0-250 kg,>250 kg,Overload alarms\nA,250,50,1.5,12\n", want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "alarms without a load over the rated load", text: "Machine,Rated load (kg),Peak (kg),0-250 kg,>250 kg,Overload alarms\nA,250,240,50,0,12\n",
		want: "A 250 | peak 240 [0-250:50 250-:0]", found: []string{"alarms-counted 2:16"}},
	{name: "no alarms", text: "Machine,Rated load (kg),Peak (kg),0-250 kg,>250 kg,Overload alarms\nA,250,240,50,0,0\n", want: "A 250 | peak 240 [0-250:50 250-:0]"},
	{name: "a location and starts are no custody", text: "Machine,Rated load (kg),0-250 kg,>250 kg,Starts,Location\nA,250,50,1.5,20,Yard\n", want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "hours over the rated load alone", text: "Machine,Rated load (kg),Hours over rated load,Peak (kg)\nA,250,1.5,320\n", want: "A 250 | peak 320 [250-:1.5]"},
	{name: "percent of the load or of the hours", text: "Machine,Rated load (kg),0-40%,40-100%,>100%,Hour meter\nA,250,66,33,1,151.5\n",
		want: "A 250 | on 151.5", found: []string{"shares-or-hours 2:1", "reading-empty 2:1"}},
	{name: "hours under percent that add up to 100", text: "Machine,Rated load (kg),0-40%,40-100%,>100%\nA,250,66,33,1\n",
		want: "A 250 | [0-100:66 100-250:33 250-:1]", found: []string{"shares-or-hours 2:1"}},
	{name: "names and values with a blank between", text: "Machine S10\nRated load 250 kg\nPeak 320 kg\n0-250 kg 50 h\n>250 kg 1.5 h\n", want: "S10 250 | peak 320 [0-250:50 250-:1.5]"},
	{name: "names and values with dots between", text: "Machine ......... A\nRated load ...... 250 kg\nPeak load ....... 320 kg\n", want: "A 250 | peak 320"},
	{name: "wind and slope", text: "Machine,Rated load (kg),Peak (kg),Max. slope (%),Max speed\nA,250,200,25,6\n", want: "A 250 | peak 200"},
	{name: "a sentence with a peak", text: "Machine: A\nRated load: 250 kg\nthe peak of 320 kg was set on Monday\n0-250 kg: 5 h\n",
		want: "A 250 | [0-250:5]", found: []string{"line-unread 3:1"}},
	{name: "rows of hours and of lifts, named", text: "Maschine;A\nNennlast;250 kg\n\n;0-250 kg;>250 kg\nStunden;50;1,5\nHübe;1200;30\n",
		want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "the rest beyond the bands", text: "Machine,Rated load (kg),0-250 kg,250-500 kg,Rest\nA,250,50,1.5,0.5\n",
		want: "A 250 | [0-250:50 250-500:1.5]", found: []string{"column-unread 1:45"}},
	{name: "two units that do not agree", text: "Machine,Rated load (kg),Peak load (kg),Peak load (lb)\nA,250,200,705\n",
		want: "A 250 | peak 200", found: []string{"column-twice 1:40"}},
	{name: "in min below the table", text: "Machine,Rated load (kg),0-250 kg,>250 kg\nA,250,3000,90\nall values in min,,,\n",
		want: "A 250 |", found: []string{"unit-elsewhere 3:1", "unit-unclear 2:1", "reading-empty 2:1"}},
	{name: "a peak of nothing", text: "Machine,Rated load (kg),Lifetime peak (kg)\nA,250,0\n", want: "A 250 | peak 0"},
	{name: "an interval in a line", text: "Sampling interval: 10 minutes\nMachine,Rated load (kg),0-250 kg,>250 kg\nA,250,50,1.5\n", want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "persons that are no number", text: "Machine,Rated load (kg),Persons,Peak (kg)\nA,250,2+1,200\n", want: "A 250 | peak 200", found: []string{"value-unreadable 2:7"}},
	{name: "a first row that says too little", text: "Machine,Rated load (kg),Hours in band\n,,0-250 kg,>250 kg\nA,250,50,1.5\n", want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "lifts over bands", text: "Machine,Rated load (kg),Peak (kg),Lifts,\n,,,0-250 kg,>250 kg\nA,250,200,1200,30\n",
		want: "A 250 | peak 200", found: []string{"column-unread 2:4", "column-unread 2:13"}},
	{name: "a line drawn below headings", text: "Machine: A\nRated load: 250 kg\n\n| Load band | Hours |\n|---|---|\n| 0-250 kg | 50 |\n| >250 kg | 1.5 |\n", want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "edges under one word", text: "Machine;Nennlast (kg);Lastband von;bis;Stunden\nA;250;0;250;50,0\nA;250;250;;1,5\n", want: "A 250 | [0-250:50 250-:1.5]"},
	{name: "lifts alone", text: "Machine,Rated load (kg),Peak (kg),0-100 kg lifts,>100 kg lifts\nA,250,200,9,1\n",
		want: "A 250 | peak 200", found: []string{"column-unread 1:35", "column-unread 1:50"}},
}

func TestExports(t *testing.T) {
	for _, v := range exports {
		b, err := intake.ReadBytes("x.csv", []byte(v.text))
		if err != nil {
			t.Errorf("%s: got %v, want it read", v.name, err)
			continue
		}
		if got := briefs(b); got != v.want {
			t.Errorf("%s: got %q, want %q", v.name, got, v.want)
		}
		if len(b.Questions) != v.asked {
			t.Errorf("%s: got the questions %q, want %d", v.name, askedIn(b), v.asked)
		}
		found, blocked := doubts(b)
		if !slices.Equal(found, v.found) {
			t.Errorf("%s: got %q, want %q", v.name, found, v.found)
		}
		for _, d := range dossier.From([]intake.Batch{b}) {
			if clear := strings.HasPrefix(d.Answers.Summary, "The record shows no load over"); clear && blocked {
				t.Errorf("%s: got %q beside a blocking finding", v.name, d.Answers.Summary)
			}
		}
	}
}

// doubts lists what is found in a batch that is more than a note.
func doubts(b batch.Batch) (out []string, blocked bool) {
	seen := map[string]bool{}
	for _, d := range dossier.From([]batch.Batch{b}) {
		for _, f := range d.Findings {
			text := fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column)
			if f.Severity != record.Note && !seen[text] {
				seen[text] = true
				out = append(out, text)
			}
		}
		blocked = blocked || d.Blocked()
	}
	return out, blocked
}
