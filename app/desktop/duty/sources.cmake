set(DUTY_SOURCES
    duty/case_card.cpp duty/case_card.h duty/case_edits.cpp duty/case_edits.h duty/case_form.cpp duty/case_form.h
    duty/cases_card.cpp duty/cases_card.h duty/caution_rows.cpp duty/caution_rows.h duty/cautions_card.cpp duty/cautions_card.h duty/curve_reading.cpp
    duty/curve_reading.h duty/duty_curves.cpp duty/duty_drawing.cpp duty/duty_drawing.h duty/duty_mark.cpp duty/duty_parts.cpp duty/duty_picture.cpp
    duty/duty_picture.h duty/duty_place.cpp duty/duty_place_trying.cpp duty/duty_place.h duty/duty_plot.cpp duty/duty_plot.h duty/duty_words.cpp
    duty/duty_words.h duty/flow_text.cpp duty/flow_text.h duty/interval_card.cpp duty/interval_card.h
    duty/label_places.cpp duty/label_places.h duty/picture_export.cpp duty/picture_export.h duty/plot_card.cpp
    duty/plot_card.h duty/plot_pens.h duty/plot_table.cpp duty/plot_table.h duty/sign_mark.cpp
    duty/sign_mark.h duty/pump_choice.cpp duty/pump_choice.h duty/trying.cpp duty/trying.h duty/what_if_card.cpp duty/what_if_card.h duty/working_card.cpp duty/working_card.h
    duty/working_html.cpp duty/working_html.h
    duty/zone_row.cpp duty/zone_row.h duty/zones_card.cpp duty/zones_card.h)
