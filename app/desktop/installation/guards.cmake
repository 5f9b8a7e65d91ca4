set(GUARDS_SOURCES
    installation/form_labels.h installation/guards_ranges.h installation/guards_view.cpp installation/guards_view.h
    installation/ordered_pair_edit.cpp installation/ordered_pair_edit.h
    installation/pump_facts_form.cpp installation/pump_facts_form.h
    installation/rules_card.cpp installation/rules_card.h installation/rules_delegate.cpp
    installation/rules_delegate.h installation/rules_model.cpp installation/rules_model.h
    installation/source_facts_form.cpp installation/source_facts_form.h
    installation/study_card.cpp installation/study_card.h installation/study_words.cpp installation/study_words.h
    installation/thread_edit.cpp installation/thread_edit.h)
