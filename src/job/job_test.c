// Every rule of the job format, with the exact message.
#include "job_test_lines.h"

/* ---- faults ---- */

/* All findings of the edited job, one a line. */
static const struct {
    const char *name, *edits, *faults;
} faults[] = {
    {"span below", "box.span=3 in",
     "7:10: error 103: span 3 in is below the least 24 in; write a value from 24 in to 40 ft"},
    {"span above", "box.span=41 ft",
     "7:10: error 103: span 41 ft is above the most 40 ft; write a value from 24 in to 40 ft"},
    {"no unit", "box.span=12",
     "7:10: error 104: span 12 has no unit; write a length such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 "
     "ft 6 in or 905 mm"},
    {"wrong unit", "box.span=12 lb",
     "7:10: error 104: span 12 lb has a unit that does not fit here (\"lb\"); write a length such "
     "as 10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"not a number", "box.span=twelve ft",
     "7:10: error 105: span twelve ft cannot be read; write a length such as 10 in, 1-1/2 in, "
     "5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"empty value", "box.span=",
     "7:10: error 105: span has no value; write a length such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 "
     "ft 6 in or 905 mm"},
    {"text left over", "box.span=12 ft wide",
     "7:10: error 105: span 12 ft wide makes no sense from \"wide\" on; write a length such as 10 "
     "in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"slope negative", "run.slope=-1%",
     "4:11: error 103: slope -1% is below the least 0 %; write a value from 0 % to 50 %"},
    {"skew too large", "run.skew=75 deg",
     "15:10: error 103: skew 75 deg is above the most 60 deg; write a value from -60 deg to 60 "
     "deg"},
    {"count not whole", "barrels.count=1.5",
     "15:15: error 105: count 1.5 makes no sense from \".5\" on; write a whole number from 1 to 8"},
    {"too many barrels", "barrels.count=9",
     "15:15: error 103: count 9 is above the most 8; write a value from 1 to 8"},
    {"choice near", "box.form=lidd",
     "6:10: error 109: form lidd is not one of lid, double-u or ring; did you mean lid?"},
    {"choice far", "box.form=arch",
     "6:10: error 109: form arch is not a choice; write lid, double-u or ring"},
    {"choice empty",
     "box.form=", "6:10: error 109: form has no value; write lid, double-u or ring"},
    {"format of the future", "format=2", "1:8: error 103: format 2 is above the most 1; write 1"},
    {"text empty", "job.name=",
     "2:10: error 105: name has no value; write it: name of the job, printed on every sheet"},
    {"unknown near",
     "box.sapn=12 ft\n"
     "-box.span",
     "15:10: error 102: box has no key sapn; did you mean span?"},
    {"unknown elsewhere", "box.lengths=12 ft",
     "15:13: error 102: box has no key lengths; such a key belongs under pieces"},
    {"unknown anywhere", "box.colour=grey",
     "15:12: error 102: box has no key colour; it takes form, span, rise, wall, floor, top, leg, "
     "haunch, top_haunch, concrete, strength"},
    {"unknown at top", "colour=grey",
     "15:8: error 102: the job file has no key colour; it takes format, job, profile, acceptance, "
     "survey, road, run, bends, box, joint, barrels, pieces, openings, phases, ground, bedding, "
     "fill_between, sealant, lifting, order, water, site_water, trench, "
     "grade_control, backfill, strength, obstacles, schedule, cranes"},
    {"unknown with children once",
     "boxx.span=12 ft\n"
     "boxx.rise=12 ft",
     "15:1: error 102: the job file has no key boxx; did you mean box?"},
    {"twice", "+box.span=13 ft",
     "15:10: error 107: box.span is given twice: at line 7 and again here; keep one"},
    {"map for value",
     "-box.span\n"
     "box.span.value=12 ft",
     "15:1: error 108: box.span is a map of keys here; write one value, a length such as 10 in, "
     "1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"list for value",
     "-box.span\n"
     "box.span[0]=12 ft",
     "15:1: error 108: box.span is a list here; write one value, a length such as 10 in, 1-1/2 in, "
     "5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"value for map",
     "-box\n"
     "box=12 ft",
     "15:5: error 108: box is one value here; write keys with their values: form, span, rise, "
     "wall, floor, top, leg, haunch, top_haunch, concrete, strength"},
    {"list for map",
     "-box\n"
     "box[0].form=lid",
     "15:1: error 108: box is a list here; write keys with their values: form, span, rise, wall, "
     "floor, top, leg, haunch, top_haunch, concrete, strength"},
    {"map for list", "openings.name=a",
     "15:1: error 108: openings is a map of keys here; write a list, each item with a dash before "
     "its first key: name, barrel, face, at, height, diameter, width, tall, clear"},
    {"value for list", "openings=a",
     "15:10: error 108: openings is one value here; write a list, each item with a dash before its "
     "first key: name, barrel, face, at, height, diameter, width, tall, clear"},
    {"value for item", "openings[0]=a",
     "15:13: error 108: openings[0] is one value here; write keys with their values: name, barrel, "
     "face, at, height, diameter, width, tall, clear"},
    {"map in list value",
     "-pieces.lengths\n"
     "pieces.lengths[0].a=8 ft",
     "15:1: error 108: pieces.lengths[0] is a map of keys here; write one value, a length such as "
     "10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"file is a list",
     "-format\n"
     "-job\n"
     "-run\n"
     "-box\n"
     "-pieces\n"
     "=[]\n"
     "[0]=a",
     "15:2: error 108: the job file is a list here; write keys with their values: format, job, "
     "profile, acceptance, survey, road, run, bends, box, joint, barrels, pieces, openings, "
     "phases, ground, bedding, fill_between, sealant, lifting, order, water, site_water, trench, "
     "grade_control, backfill, strength, obstacles, schedule, cranes"},
    {"missing field", "-box.rise",
     "6:1: error 106: box has no rise (clear inside height of one barrel, floor to soffit); write "
     "rise: a length such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"missing choice", "-box.form",
     "7:1: error 106: box has no form (how a barrel is made: base and flat lid, base and inverted "
     "U, or one ring); write form: lid, double-u or ring"},
    {"missing format", "-format",
     " error 106: the job file has no format (version of the job format that this file is written "
     "in); write format: 1"},
    {"missing section", "-job",
     " error 106: the job file has no job (what the job is called and who answers for the plan); "
     "add it with name"},
    {"missing in item", "bends[0].at=20 ft",
     "15:1: error 106: bends[0] has no turn (angle of the bend, positive to the right looking "
     "upstream); write turn: an angle such as 20 deg or 20d30m15s"},
    {"empty list value",
     "-pieces.lengths\n"
     "pieces.lengths=[]",
     "15:16: error 105: lengths is an empty list; write a length such as 10 in, 1-1/2 in, 5'-10 "
     "3/4\", 8 ft 6 in or 905 mm"},
    {"fault in list value", "pieces.lengths[1]=6 lb",
     "14:19: error 104: lengths 6 lb has a unit that does not fit here (\"lb\"); write a length "
     "such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"list value as text",
     "-pieces.lengths\n"
     "pieces.lengths=8 ft, 1 ft",
     "15:16: error 103: lengths 1 ft is below the least 24 in; write a value from 24 in to 24 ft"},
    {"too many bends",
     "bends[0].at=1 ft\n"
     "bends[0].turn=1 deg\n"
     "bends[1].at=2 ft\n"
     "bends[1].turn=1 deg\n"
     "bends[2].at=3 ft\n"
     "bends[2].turn=1 deg\n"
     "bends[3].at=4 ft\n"
     "bends[3].turn=1 deg\n"
     "bends[4].at=5 ft\n"
     "bends[4].turn=1 deg\n"
     "bends[5].at=6 ft\n"
     "bends[5].turn=1 deg\n"
     "bends[6].at=7 ft\n"
     "bends[6].turn=1 deg\n"
     "bends[7].at=8 ft\n"
     "bends[7].turn=1 deg\n"
     "bends[8].at=9 ft\n"
     "bends[8].turn=1 deg",
     "31:1: error 110: bends has more than 8 items; the program takes 8, so split the job or leave "
     "some out"},
    {"too many entries of a list value",
     "-pieces.lengths\n"
     "pieces.lengths[0]=24 in\n"
     "pieces.lengths[1]=25 in\n"
     "pieces.lengths[2]=26 in\n"
     "pieces.lengths[3]=27 in\n"
     "pieces.lengths[4]=28 in\n"
     "pieces.lengths[5]=29 in\n"
     "pieces.lengths[6]=30 in\n"
     "pieces.lengths[7]=31 in\n"
     "pieces.lengths[8]=32 in\n"
     "pieces.lengths[9]=33 in\n"
     "pieces.lengths[10]=34 in\n"
     "pieces.lengths[11]=35 in\n"
     "pieces.lengths[12]=36 in\n"
     "pieces.lengths[13]=37 in\n"
     "pieces.lengths[14]=38 in\n"
     "pieces.lengths[15]=39 in\n"
     "pieces.lengths[16]=40 in\n"
     "pieces.lengths[17]=41 in\n"
     "pieces.lengths[18]=42 in\n"
     "pieces.lengths[19]=43 in\n"
     "pieces.lengths[20]=44 in\n"
     "pieces.lengths[21]=45 in\n"
     "pieces.lengths[22]=46 in\n"
     "pieces.lengths[23]=47 in\n"
     "pieces.lengths[24]=48 in\n"
     "pieces.lengths[25]=49 in\n"
     "pieces.lengths[26]=50 in\n"
     "pieces.lengths[27]=51 in\n"
     "pieces.lengths[28]=52 in\n"
     "pieces.lengths[29]=53 in\n"
     "pieces.lengths[30]=54 in\n"
     "pieces.lengths[31]=55 in\n"
     "pieces.lengths[32]=56 in\n"
     "pieces.lengths[33]=57 in\n"
     "pieces.lengths[34]=58 in\n"
     "pieces.lengths[35]=59 in\n"
     "pieces.lengths[36]=60 in\n"
     "pieces.lengths[37]=61 in\n"
     "pieces.lengths[38]=62 in\n"
     "pieces.lengths[39]=63 in\n"
     "pieces.lengths[40]=64 in\n"
     "pieces.lengths[41]=65 in\n"
     "pieces.lengths[42]=66 in\n"
     "pieces.lengths[43]=67 in\n"
     "pieces.lengths[44]=68 in\n"
     "pieces.lengths[45]=69 in\n"
     "pieces.lengths[46]=70 in\n"
     "pieces.lengths[47]=71 in\n"
     "pieces.lengths[48]=72 in\n"
     "pieces.lengths[49]=73 in\n"
     "pieces.lengths[50]=74 in\n"
     "pieces.lengths[51]=75 in\n"
     "pieces.lengths[52]=76 in\n"
     "pieces.lengths[53]=77 in\n"
     "pieces.lengths[54]=78 in\n"
     "pieces.lengths[55]=79 in\n"
     "pieces.lengths[56]=80 in\n"
     "pieces.lengths[57]=81 in\n"
     "pieces.lengths[58]=82 in\n"
     "pieces.lengths[59]=83 in\n"
     "pieces.lengths[60]=84 in\n"
     "pieces.lengths[61]=85 in\n"
     "pieces.lengths[62]=86 in\n"
     "pieces.lengths[63]=87 in\n"
     "pieces.lengths[64]=88 in",
     "79:20: error 110: lengths has more than 64 items; shorten the list"},
    {"seventeen lengths",
     "-pieces.lengths\n"
     "pieces.lengths[0]=24 in\n"
     "pieces.lengths[1]=25 in\n"
     "pieces.lengths[2]=26 in\n"
     "pieces.lengths[3]=27 in\n"
     "pieces.lengths[4]=28 in\n"
     "pieces.lengths[5]=29 in\n"
     "pieces.lengths[6]=30 in\n"
     "pieces.lengths[7]=31 in\n"
     "pieces.lengths[8]=32 in\n"
     "pieces.lengths[9]=33 in\n"
     "pieces.lengths[10]=34 in\n"
     "pieces.lengths[11]=35 in\n"
     "pieces.lengths[12]=36 in\n"
     "pieces.lengths[13]=37 in\n"
     "pieces.lengths[14]=38 in\n"
     "pieces.lengths[15]=39 in\n"
     "pieces.lengths[16]=40 in",
     "15:1: error 110: 17 lengths are given and the program takes 16 of one row; leave out those "
     "that the plant would not cast"},
    {"fourteen set-ups",
     "-pieces.lengths\n"
     "pieces.lengths[0]=24 in\n"
     "pieces.lengths[1]=25 in\n"
     "pieces.lengths[2]=26 in\n"
     "pieces.lengths[3]=27 in\n"
     "pieces.lengths[4]=28 in\n"
     "pieces.lengths[5]=29 in\n"
     "pieces.lengths[6]=30 in",
     "15:1: error 110: lengths and ends make 14 mould set-ups (bases and tops each their own) and "
     "the program takes 12; leave out lengths that the plant would not cast"},
    {"thirteen set-ups of a ring",
     "box.form=ring\n"
     "-pieces.lengths\n"
     "pieces.lengths[0]=24 in\n"
     "pieces.lengths[1]=25 in\n"
     "pieces.lengths[2]=26 in\n"
     "pieces.lengths[3]=27 in\n"
     "pieces.lengths[4]=28 in\n"
     "pieces.lengths[5]=29 in\n"
     "pieces.lengths[6]=30 in\n"
     "pieces.lengths[7]=31 in\n"
     "pieces.lengths[8]=32 in\n"
     "pieces.lengths[9]=33 in\n"
     "pieces.lengths[10]=34 in\n"
     "pieces.lengths[11]=35 in\n"
     "pieces.lengths[12]=36 in",
     "15:1: error 110: lengths and ends make 13 mould set-ups and the program takes 12; leave out "
     "lengths that the plant would not cast"},
    {"one base ahead", "order.ahead=1",
     "15:13: error 103: ahead 1 is below the least 2; write a value from 2 to 40"},
    {"length twice", "pieces.lengths[1]=96 in",
     "14:19: error 107: length 8'-0\" is in the list twice; keep one"},
    {"no length, no road", "-run.length",
     "3:1: error 106: run has no length and there is no road from which it would follow; write "
     "run.length, or add road with its two templates"},
    {"road without template",
     "-run.length\n"
     "@road\n"
     "-road.inlet_template",
     "15:1: error 106: road has no inlet_template, from which the length would follow; add it with "
     "its strips and side_slope, or give run.length and run.outlet_distance"},
    {"road without strips",
     "-run.length\n"
     "@road\n"
     "-road.inlet_template.strips",
     "22:1: error 106: road.inlet_template has no strips (lanes and shoulders from the grade point "
     "outward); add it with width, fall"},
    {"strips without width",
     "-run.length\n"
     "@road\n"
     "road.inlet_template.strips[0].width=0 ft",
     "23:1: error 112: the strips of road.inlet_template are 0 ft wide together; give a lane or "
     "shoulder its width"},
    {"length under a road", "@road",
     "5:12: error 106: a given length does not say where the outlet lies under the road; write "
     "run.outlet_distance, or leave length out and let the road template set both ends"},
    {"outlet distance without length",
     "-run.length\n"
     "@road\n"
     "run.outlet_distance=40 ft",
     "25:21: error 111: outlet_distance goes only with a given length; write run.length too, or "
     "leave it out and let the road template set both ends"},
    {"outlet distance without road", "run.outlet_distance=40 ft",
     "15:21: error 111: outlet_distance is measured from the road, and the job has none; add road, "
     "or leave it out and give the invert at the outlet face"},
    {"outlet distance past length",
     "@road\n"
     "run.outlet_distance=100 ft",
     "25:21: error 111: outlet_distance 100.00 ft (line 25) is more than the length 96.00 ft (line "
     "5), so the road would not lie over the culvert; correct one of them"},
    {"leg with lid", "box.leg=2 ft",
     "15:9: error 111: leg (line 15) is for form double-u only, and form (line 6) is lid; remove "
     "leg or change form"},
    {"double-u without leg", "box.form=double-u",
     "6:1: error 106: form double-u needs leg, the clear height of the base wall above the floor; "
     "write leg, less than the rise"},
    {"leg takes the rise",
     "box.form=double-u\n"
     "box.leg=4 ft",
     "15:9: error 112: leg 4'-0\" (line 15) reaches the whole rise 4'-0\" (line 8) and leaves no "
     "wall for the hood; write a leg less than the rise"},
    {"haunches wider than span",
     "box.span=2 ft\n"
     "box.haunch=13 in",
     "12:12: error 112: two haunches of 1'-1\" (line 12) are wider than the span 2'-0\" (line 7); "
     "write at most 1'-0\""},
    {"haunch taller than leg",
     "box.form=double-u\n"
     "box.leg=6 in\n"
     "box.haunch=8 in",
     "12:12: error 112: a haunch of 8\" (line 12) is taller than the 6\" of wall it stands "
     "against; make it smaller"},
    {"haunch under a lid", "box.top_haunch=6 in",
     "15:16: error 111: top_haunch (line 15) cannot stand under a flat lid, and form (line 6) is "
     "lid; remove it or change form"},
    {"haunches of a ring",
     "box.form=ring\n"
     "box.rise=2 ft\n"
     "box.haunch=14 in\n"
     "box.top_haunch=14 in",
     "15:16: error 112: a haunch of 1'-2\" (line 15) is taller than the 10\" of wall it stands "
     "against; make it smaller"},
    {"haunch taller than hood",
     "box.form=double-u\n"
     "box.leg=40 in\n"
     "box.top_haunch=10 in",
     "16:16: error 112: a haunch of 10\" (line 16) is taller than the 8\" of wall it stands "
     "against; make it smaller"},
    {"gap over default band", "joint.gap=1 in",
     "15:11: error 111: gap 1\" (line 15) is more than gap_max 3/4\" (by default); change one of "
     "them"},
    {"gap under band",
     "joint.gap=1/2 in\n"
     "joint.gap_min=5/8 in",
     "15:11: error 111: gap 1/2\" (line 15) is less than gap_min 5/8\" (line 16); change one of "
     "them"},
    {"band upside down", "joint.gap_min=1 in",
     "15:15: error 111: gap_min 1\" (line 15) is more than gap_max 3/4\" (by default); change one "
     "of them"},
    {"tongue too long", "joint.tongue=4 in",
     "15:14: error 112: tongue 4\" (line 15) touches the bottom of the groove 3 1/2\" (by default) "
     "before the gap closes to gap_min 1/4\"; write a shorter tongue or a deeper groove"},
    {"tongue too thick", "joint.tongue_share=0.6",
     "15:20: error 112: tongue_share 0.6 (line 15) is more than groove_share 0.5 (by default), so "
     "the tongue would not enter; change one of them"},
    {"drops",
     "barrels.count=2\n"
     "barrels.drops[0]=0 in",
     "16:1: error 111: drops (line 16) lists 1 and count (line 15) is 2; write one drop for each "
     "barrel, 0 in for the highest"},
    {"first barrel", "order.first_barrel=2",
     "15:20: error 111: first_barrel 2 (line 15) is more than the count 1 (by default); lower it "
     "or raise count"},
    {"ring staggered",
     "box.form=ring\n"
     "pieces.rows=staggered",
     "15:13: error 111: rows (line 15) cannot be staggered, since form (line 6) is ring, which has "
     "one row; remove rows or change form"},
    {"stagger aligned", "pieces.stagger=2 ft",
     "15:16: error 111: stagger (line 15) is for staggered rows, and rows (by default) is aligned; "
     "remove it or write rows: staggered"},
    {"stagger of a ring",
     "box.form=ring\n"
     "pieces.stagger=2 ft",
     "15:16: error 111: stagger (line 15) is for staggered rows, and form (line 6) is ring, which "
     "has one row; remove it"},
    {"top lengths aligned", "pieces.top_lengths=8 ft",
     "15:20: error 111: top_lengths (line 15) is for staggered rows, and rows (by default) is "
     "aligned; remove it or write rows: staggered"},
    {"end piece of a ring",
     "box.form=ring\n"
     "pieces.ends[0].end=inlet\n"
     "pieces.ends[0].row=both\n"
     "pieces.ends[0].name=H\n"
     "pieces.ends[0].length=8 ft",
     "16:20: error 111: row (line 16) names the tops, but form (line 6) is ring, which has none; "
     "write row: base"},
    {"opening without size",
     "@opening\n"
     "-openings[0].diameter",
     "15:1: error 106: this opening has no size; write diameter, or width and tall"},
    {"opening round and square",
     "@opening\n"
     "openings[0].width=1 ft",
     "19:22: error 111: an opening is round or rectangular: diameter (line 19) and width (line 20) "
     "cannot both hold; remove one"},
    {"opening half a rectangle",
     "@opening\n"
     "-openings[0].diameter\n"
     "openings[0].width=1 ft",
     "20:19: error 106: a rectangular opening needs width and tall, and tall is not given; write "
     "it"},
    {"opening above the wall",
     "@opening\n"
     "openings[0].height=3 ft",
     "18:20: error 112: the opening reaches from 1'-6\" to 4'-6\" above the floor, outside the "
     "wall of 4'-0\"; change its height or its size"},
    {"opening below the floor",
     "@opening\n"
     "openings[0].height=1 ft",
     "18:20: error 112: the opening reaches from -6\" to 2'-6\" above the floor, outside the wall "
     "of 4'-0\"; change its height or its size"},
    {"opening past the lid edge",
     "@opening\n"
     "openings[0].face=top\n"
     "openings[0].height=5 ft",
     "18:20: error 112: the opening reaches 6'-6\" from the barrel centre, past the wall face at "
     "6'-0\"; change its height (here its place right of the centre) or its size"},
    {"opening in no barrel",
     "@opening\n"
     "openings[0].barrel=2",
     "20:20: error 111: barrel 2 is more than the number of barrels, 1; lower it or raise "
     "barrels.count"},
    {"opening past the inlet",
     "@opening\n"
     "openings[0].at=97 ft",
     "17:16: error 111: at 97.00 ft is past the inlet, the length is 96.00 ft (line 5); write a "
     "place from 0 ft to 96.00 ft"},
    {"bend past the inlet",
     "bends[0].at=97 ft\n"
     "bends[0].turn=5 deg",
     "15:13: error 111: at 97.00 ft (line 15) is past the inlet, the length is 96.00 ft (line 5); "
     "write a place from 0 ft to 96.00 ft"},
    {"bend of nothing",
     "bends[0].at=20 ft\n"
     "bends[0].turn=0 deg",
     "16:15: error 112: turn 0 deg is no bend; write its angle or remove the bend"},
    {"bends out of order",
     "bends[0].at=20 ft\n"
     "bends[0].turn=5 deg\n"
     "bends[1].at=20 ft\n"
     "bends[1].turn=5 deg",
     "17:13: error 111: at 20.00 ft (line 17) does not lie upstream of the one before it, 20.00 ft "
     "(line 15); list bends from the outlet up"},
    {"phase past the inlet",
     "phases[0].at=97 ft\n"
     "phases[0].name=A",
     "15:14: error 111: at 97.00 ft (line 15) is past the inlet, the length is 96.00 ft (line 5); "
     "write a place from 0 ft to 96.00 ft"},
    {"phases out of order",
     "phases[0].at=50 ft\n"
     "phases[0].name=A\n"
     "phases[1].at=40 ft\n"
     "phases[1].name=B",
     "17:14: error 111: at 40.00 ft (line 17) does not lie upstream of the one before it, 50.00 ft "
     "(line 15); list phases from the outlet up"},
    {"ground of both kinds",
     "ground.file=a.csv\n"
     "ground.profile[0].at=0 ft\n"
     "ground.profile[0].elevation=600 ft\n"
     "ground.profile[1].at=9 ft\n"
     "ground.profile[1].elevation=600 ft",
     "15:13: error 111: ground has both file (line 15) and profile (line 16); keep one"},
    {"ground of neither", "ground.order=pnezd",
     "15:1: error 106: ground has neither profile nor file; add one, or remove ground"},
    {"ground of one point",
     "ground.profile[0].at=0 ft\n"
     "ground.profile[0].elevation=600 ft",
     "15:1: error 106: profile has 1 point; give two or more, so that there is a line"},
    {"ground going back",
     "ground.profile[0].at=9 ft\n"
     "ground.profile[0].elevation=600 ft\n"
     "ground.profile[1].at=8 ft\n"
     "ground.profile[1].elevation=600 ft",
     "17:22: error 111: at 8.00 ft (line 17) does not lie upstream of the one before it, 9.00 ft "
     "(line 15); list ground.profile from the outlet up"},
    {"profile that is not there", "profile.name=owner.csv",
     "15:14: error 113: profile owner.csv could not be read; put the file beside the job file, or "
     "write generic"},
    {"override of no row",
     "profile.overrides[0].row=joint.gapmax\n"
     "profile.overrides[0].value=1 in\n"
     "profile.overrides[0].because=plan note 4",
     "15:26: error 102: there is no profile row joint.gapmax; did you mean joint.gap_max?"},
    {"override far from any row",
     "profile.overrides[0].row=colour\n"
     "profile.overrides[0].value=1 in\n"
     "profile.overrides[0].because=plan note 4",
     "15:26: error 102: there is no profile row colour; the rows are listed in the generic "
     "profile, such as joint.gap_max"},
    {"override without unit",
     "profile.overrides[0].row=joint.gap_max\n"
     "profile.overrides[0].value=1\n"
     "profile.overrides[0].because=plan note 4",
     "16:28: error 104: 1 for row joint.gap_max has no unit; write a length such as 10 in, 1-1/2 "
     "in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"override of another kind",
     "profile.overrides[0].row=joint.gap_max\n"
     "profile.overrides[0].value=1 lb\n"
     "profile.overrides[0].because=plan note 4",
     "16:28: error 104: 1 lb for row joint.gap_max has a unit that does not fit; write a length "
     "such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"override that is no number",
     "profile.overrides[0].row=joint.gap_max\n"
     "profile.overrides[0].value=wide\n"
     "profile.overrides[0].because=plan note 4",
     "16:28: error 105: wide for row joint.gap_max cannot be read; write a length such as 10 in, "
     "1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"override outside limits",
     "profile.overrides[0].row=joint.gap_max\n"
     "profile.overrides[0].value=4 in\n"
     "profile.overrides[0].because=plan note 4",
     "16:28: error 103: 4 in for row joint.gap_max is outside its limits; write a value from 0\" "
     "to 3\""},
    {"override without reason",
     "profile.overrides[0].row=joint.gap_max\n"
     "profile.overrides[0].value=1 in\n"
     "profile.overrides[0].because=",
     "17:30: error 105: because has no value; write it: who or what sets it: contract clause, "
     "drawing or letter"},
    {"override twice",
     "profile.overrides[0].row=joint.gap_max\n"
     "profile.overrides[0].value=1 in\n"
     "profile.overrides[0].because=a\n"
     "profile.overrides[1].row=joint.gap_max\n"
     "profile.overrides[1].value=1 in\n"
     "profile.overrides[1].because=b",
     "18:26: error 107: row joint.gap_max is overridden twice: at line 15 and again here; keep "
     "one"},
    {"misspelt section",
     "-pieces\n"
     "piecse.lengths[0]=8 ft",
     "15:1: error 102: the job file has no key piecse; did you mean pieces?"},
    {"misspelt in item",
     "bends[0].at=20 ft\n"
     "bends[0].trun=5 deg",
     "16:15: error 102: bends has no key trun; did you mean turn?"},
    {"open value in list and map", "pieces.ends[0]={}",
     "15:16: error 106: pieces.ends[0] has no end (end at which the piece stands); write end: "
     "outlet or inlet\n"
     "15:16: error 106: pieces.ends[0] has no row (row to which the piece belongs: bases, tops or "
     "both); write row: base, top or both\n"
     "15:16: error 106: pieces.ends[0] has no name (name of this kind of piece); write name: some "
     "text\n"
     "15:16: error 106: pieces.ends[0] has no length (laying length, tongue not counted); write "
     "length: a length such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    {"file that was not read", "ground.file=a.csv",
     "15:13: error 113: ground file 'a.csv' was not read; put it beside the job file"},
    {"leg at fault is one fault",
     "box.form=double-u\n"
     "box.leg=3 in",
     "15:9: error 103: leg 3 in is below the least 6 in; write a value from 6 in to 20 ft"},
    {"length at fault is one fault",
     "run.length=96\n"
     "@opening",
     "5:12: error 104: length 96 has no unit; write a length such as 12 ft, 8 ft 6 in, 5'-10 3/4\" "
     "or 3.6 m"},
    {"list value twice",
     "+pieces.lengths=[]\n"
     "+pieces.lengths[0]=4 ft",
     "15:16: error 107: pieces.lengths is given twice: at line 13 and again here; keep one"},
    {"item of a list value twice", "+pieces.lengths[1]=4 ft",
     "15:19: error 107: pieces.lengths[1] is given twice: at line 13 and again here; keep one"},
    {"strip at fault is one fault",
     "-run.length\n"
     "@road\n"
     "road.inlet_template.strips[0].width=9",
     "23:37: error 104: width 9 has no unit; write a length such as 12 ft, 8 ft 6 in, 5'-10 3/4\" "
     "or 3.6 m"},
    {"hood without wall is one fault",
     "box.form=double-u\n"
     "box.leg=5 ft\n"
     "box.top_haunch=4 in",
     "15:9: error 112: leg 5'-0\" (line 15) reaches the whole rise 4'-0\" (line 8) and leaves no "
     "wall for the hood; write a leg less than the rise"},
    {"rise at fault is one fault",
     "box.form=ring\n"
     "box.rise=9\n"
     "box.top_haunch=4 in",
     "8:10: error 104: rise 9 has no unit; write a length such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 "
     "ft 6 in or 905 mm"},
    {"section twice", "+box={}",
     "15:5: error 107: box is given twice: at line 6 and again here; keep one"},
};

static void each_rule_has_its_message(void **state)
{
    (void)state;
    int wrong = 0;
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        attempt try;
        build_with(&try, faults[i].edits, NULL);
        cw_text found = cw_text_on(&try.arena);
        for (int f = 0; f < try.diags.count; f++) {
            const char *line = cw_diag_line(&try.arena, &try.diags.items[f]);
            cw_text_print(&found, "%s%s", f > 0 ? "\n" : "", line + strlen("job.yaml:"));
        }
        if (strcmp(cw_text_string(&found), faults[i].faults) != 0 || try.job) {
            print_message("%s\n  wanted %s\n  found  %s\n", faults[i].name, faults[i].faults,
                          cw_text_string(&found));
            wrong++;
        }
        done(&try);
    }
    assert_int_equal(wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_rule_has_its_message),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
