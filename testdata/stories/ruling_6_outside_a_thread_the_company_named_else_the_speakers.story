at 2026-11-25 06:59
+1m
ines in #station-1: saw bar oil ok
expect record reading item=e1-saw check=bar_oil state=ok company=E1
ines in #station-1: truck 1 fan guard ok
expect record reading item=t1-fan check=guard state=ok company=T1
# a speaker of another station's company is asked
odile in #station-1: saw bar oil is low
expect ask
expect no record reading state=ok
# an item that the company does not carry is asked about
ines in E1: fan fuel full
expect ask
expect no record reading state=ok
