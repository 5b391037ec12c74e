"""Writes ../survey.xml from the fittings and the pictures taken of them."""
from xml.sax.saxutils import quoteattr as q, escape

STAYS = [
    ("forestay", "forestay", "centre", "8 mm", "2019-03", "invoice", "13.48 m"),
    ("inner-forestay", "inner-forestay", "centre", "7 mm", "2019-03", "invoice", "7.61 m"),
    ("cap-port", "cap-shroud", "port", "8 mm", "2016-05", "invoice", "12.83 m"),
    ("lower-port", "lower-shroud", "port", "7 mm", "2016-05", "invoice", "6.44 m"),
    ("backstay", "backstay", "centre", "8 mm", "2012-04", "owner", "13.91 m"),
    ("lower-starboard", "lower-shroud", "starboard", "7 mm", "2016-05", "invoice", "6.44 m"),
    ("cap-starboard", "cap-shroud", "starboard", "8 mm", "2016-05", "invoice", "12.83 m"),
]

HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<!-- An invented survey of an invented yacht. Written by render/render.py; the pictures are computed. -->
<rig-survey xmlns="urn:rigdeed:survey:1" number="2026-118" purpose="passage" written-in="en">
  <surveyor name="Ilse Varnhold" firm="Varnhold Rig Surveys" qualification="rigger, 19 years; surveyor of spars and rigging" contact="Netmakers' Row 4, Larrenholm" independence="no share in any yard, rigger or broker; paid by the hour" indemnity="2 000 000 a claim, until 31 March 2027"/>
  <client name="Tomas Brekkelund" role="owner" contact="on board"/>
  <yacht name="Quillow" hin="SE-VRD00283-H8-98" rig="cutter" mast="aluminium" built="1998" loa="10.4 m" beam="3.38 m" displacement="6900 kg" rm30="34 kN m" freeboard="1.00 m"/>
  <attendance on="2026-09-15" place="Visitors' quay, Larrenholm" climbed="yes" afloat="yes" weather="dry, broken cloud, wind south-west 2, 17 degrees" standards="ISO 3452-1 for penetrant testing; common practice of riggers"/>
  <history sailed="9600 nmi" statement="Grounded once, on sand, 2021; no collision, no mast lost">
    <survey on="2021-10" by="Arvid Stennmark" number="2021-57" left="age of the backstay to be settled"/>
    <repair on="2019-03" done="forestays renewed with their terminals" by="the yard at Larrenholm"/>
    <repair on="2016-05" done="shrouds renewed, port and starboard" by="the yard at Larrenholm"/>
  </history>
  <photos folder="photos" camera-clock="+00:02:10">
%s  </photos>
  <rig choices="spreaders=1 lowers=single runners=no backstay=single furler=yes">
%s  </rig>
  <fittings>
"""
OTHER = ["the yacht at her berth", "the mast from the foredeck"]


def write(F, todo, path):
    others = "".join('    <other name=%s shows=%s/>\n' % (q(s["name"]), q(OTHER[i])) for i, s in enumerate(x for x in todo if x["what"] == "other"))
    stays = "".join('    <stay id=%s role=%s side=%s make="1x19" alloy="316" diameter=%s fitted=%s age-source=%s length=%s/>\n' % tuple(
        q(v) for v in row) for row in STAYS)
    o = [HEAD % (others, stays)]
    for f in F:
        head = '    <fitting id=%s kind=%s' % (q(f["id"]), q(f["kind"]))
        head += ' stay=%s' % q(f["stay"]) if f["stay"] else ' side=%s' % q(f["side"])
        head += ' station=%s height="%.2f m" metal=%s>' % (q(f["station"]), f["height"], q(f["metal"]))
        o.append(head + "\n")
        if f["not_seen"]:
            o.append('      <not-seen reason=%s/>\n' % q(f["not_seen"]))
        else:
            for way in ("up", "down"):
                c = f["shots"].get(way)
                t = '      <seen pass="%s" at="%s"' % (way, f[way].strftime("%H:%M"))
                if c:
                    t += ' far="%s" close="%s"' % (c["shot"]["farshot"]["name"], c["shot"]["name"])
                if c and f.get("on_far", {}).get(way):
                    t += ' on-far="%.3f %.3f %.3f"' % f["on_far"][way]
                signs = f["signs"].get(way)
                if not signs:
                    o.append(t + "/>\n")
                    continue
                o.append(t + ">\n")
                for g, m in zip(signs, f["marks"][way]):
                    code, where, count, length = g[:4]
                    s = '        <sign code=%s where=%s' % (q(code), q(where))
                    s += ' count="%d"' % count if count else ""
                    s += ' length=%s' % q(length) if length else ""
                    s += ' mark="%.3f %.3f %.3f"' % m if m else ""
                    o.append(s + ">" + escape(g[6]) + "</sign>\n")
                o.append("      </seen>\n")
            for what, value in f["measured"]:
                o.append('      <measured what=%s value=%s/>\n' % (q(what), q(value)))
            if f["verdict"]:
                o.append('      <verdict is=%s because=%s/>\n' % (q(f["verdict"][0]), q(f["verdict"][1])))
        o.append("    </fitting>\n")
    o.append("  </fittings>\n</rig-survey>\n")
    with open(path, "w", encoding="utf-8") as out:
        out.write("".join(o))
