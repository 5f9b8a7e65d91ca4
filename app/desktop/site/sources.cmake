set(SITE_SOURCES
    site/catalogue_choices.cpp site/catalogue_choices.h
    site/catalogue_edit.cpp site/catalogue_edit.h
    site/emitter_forms.cpp site/emitter_forms.h
    site/field_form.cpp site/field_form.h
    site/item_form.cpp site/item_form.h
    site/item_words.cpp site/item_words.h
    site/label_layout.cpp site/label_layout.h
    site/long_section_grid.cpp site/long_section_paint.cpp site/long_section_view.cpp site/long_section_view.h
    site/run_card.cpp site/run_card.h
    site/run_delegate.cpp site/run_delegate.h
    site/run_edits.cpp site/run_edits.h
    site/run_model.cpp site/run_model_values.cpp site/run_model.h
    site/run_spot.cpp site/run_spot.h
    site/section_drawing.cpp site/section_drawing.h
    site/shown_case.cpp site/shown_case.h
    site/site_place.cpp site/site_place_answer.cpp site/site_place.h
    site/site_questions.cpp site/site_questions.h
    site/site_ranges.cpp site/site_ranges.h
    site/site_words.cpp site/site_words.h
    site/water_form.cpp site/control_form.cpp site/controller_form.cpp site/water_form.h
    site/controller_edits.cpp site/controller_edits.h
    site/window_edit.cpp site/window_edit.h
    site/zone_pairs_edit.cpp site/zone_pairs_edit.h
    site/zones_form.cpp site/zones_form_emitters.cpp site/zones_form_need.cpp site/zones_form_system.cpp
    site/zones_form.h
    site/zones_table.cpp site/zones_table.h)
