# Prints of a finished work, captions, the proposal as PDF, and everything of a layout in one go.
target_sources(rakelight_output PRIVATE srgb_profile.cpp caption.cpp pdf_pages.cpp shot_light.cpp shot_plan.cpp
               mounted_print.cpp print_hash.cpp dossier_page.cpp dossier.cpp dossier_materials.cpp dossier_sizes.cpp
               portfolio_json.cpp steps_of_all.cpp)
target_sources(rakelight PRIVATE command_portfolio.cpp command_all.cpp)
