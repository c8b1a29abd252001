at 2026-11-25 06:59
+1m
ines in E1: okay so pump fuel is full oil is good throttle is locked no leaks and the saw is full bar oil good chain is tight
expect record reading item=e1-pump check=fuel state=ok
expect record reading item=e1-pump check=throttle state=ok
expect record reading item=e1-pump check=leaks state=ok
expect record reading item=e1-saw check=chain state=ok
expect no record reading check=blades
